"use strict";
// Says beside the fields what cannot go together, before anything is pressed. Names are not sent.
(() => {
  const form = document.querySelector("form[data-check]");
  if (!form) return;
  let waiting = 0;
  let turn = 0;
  const places = () => [...form.querySelectorAll("[data-fault]")];
  const say = (found) => {
    const at = found.fields.length ? found.fields : [""];
    for (const place of places()) {
      const here = found.text && at.includes(place.dataset.fault);
      const last = found.text && place.dataset.fault === "";
      place.hidden = !here && !last;
      place.textContent = here || last ? found.text : "";
    }
  };
  const check = async () => {
    const mine = ++turn;
    const wishes = new URLSearchParams();
    for (const [name, value] of new FormData(form)) {
      if (typeof value === "string" && value && name !== "names") wishes.append(name, value);
    }
    try {
      const answer = await fetch(`${form.dataset.check}?${wishes}`);
      if (answer.ok && mine === turn) say(await answer.json());
    } catch {
      // Without an answer the form says it when it is sent.
    }
  };
  form.addEventListener("change", (event) => {
    if (event.target.name && event.target.name.startsWith("names") && event.target.name !== "names-from") return;
    clearTimeout(waiting);
    waiting = setTimeout(check, 200);
  });
})();
