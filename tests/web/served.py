"""Serves the pages of a home until it is killed: python tests/web/served.py FOLDER PORT"""

import sys
from pathlib import Path

import uvicorn

from storybank.web import Home, create_app

if __name__ == "__main__":
    folder = Path(sys.argv[1])
    app = create_app(Home(folder, folder / "our.bank"))
    uvicorn.run(app, host="127.0.0.1", port=int(sys.argv[2]), log_level="warning")
