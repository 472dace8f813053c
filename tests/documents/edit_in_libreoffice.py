"""Edits a Word file by LibreOffice's own hand: run by the Python that knows `uno`, not imported.

    python3 edit_in_libreoffice.py PIPE SOURCE TARGET CODE OLD NEW

In SOURCE the style Story gets 22 points, the text OLD becomes NEW, and the problem whose heading
holds CODE is removed; the result is saved as Word file TARGET. PIPE is the name under which an
office listens.
"""

import os
import sys
import time

import uno
from com.sun.star.beans import PropertyValue
from com.sun.star.connection import NoConnectException


def connected(pipe):
    local = uno.getComponentContext()
    resolver = local.ServiceManager.createInstanceWithContext(
        "com.sun.star.bridge.UnoUrlResolver", local
    )
    for _ in range(240):
        try:
            return resolver.resolve(f"uno:pipe,name={pipe};urp;StarOffice.ComponentContext")
        except NoConnectException:
            time.sleep(0.25)
    raise SystemExit("no office listens")


def setting(name, value):
    made = PropertyValue()
    made.Name, made.Value = name, value
    return made


def main(pipe, source, target, code, old, new):
    office = connected(pipe)
    desktop = office.ServiceManager.createInstanceWithContext("com.sun.star.frame.Desktop", office)
    document = desktop.loadComponentFromURL(source, "_blank", 0, (setting("Hidden", True),))
    document.StyleFamilies.getByName("ParagraphStyles").getByName("Story").CharHeight = 22
    search = document.createReplaceDescriptor()
    search.SearchString, search.ReplaceString = old, new
    changed = document.replaceAll(search)
    doomed, removing = [], False
    paragraphs = document.Text.createEnumeration()
    while paragraphs.hasMoreElements():
        one = paragraphs.nextElement()
        if one.supportsService("com.sun.star.text.Paragraph"):
            if one.ParaStyleName == "Heading 1":
                removing = code in one.String
            if removing:
                doomed.append(one)
    for one in doomed:
        one.dispose()
    document.storeToURL(target, (setting("FilterName", "Office Open XML Text"),))
    document.close(True)
    sys.stdout.write(f"{changed} {len(doomed)}\n")
    sys.stdout.flush()
    desktop.terminate()


main(*sys.argv[1:])
# Everything is saved and said. Taking Python down while the office closes the pipe between them can
# crash, so there is no taking down.
os._exit(0)
