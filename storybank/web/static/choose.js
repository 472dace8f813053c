"use strict";
// Says beside the fields what cannot go together, before anything is pressed. Names are not sent.
(() => {
  const form = document.querySelector("form[data-check]");
  if (!form) return;
  const bar = form.querySelector('[data-fault=""]');
  const places = [...form.querySelectorAll("[data-fault]")].filter((one) => one !== bar);
  let waiting = 0;
  let turn = 0;

  // The bar stays small: it leads to the fields, where the reason stands in full.
  const sayInBar = (text, here) => {
    const what = here.length > 1 ? "These choices do not go together" : "One choice has to be another";
    bar.replaceChildren(here.length ? `${what}: see ` : text);
    here.forEach((place, at) => {
      const link = document.createElement("a");
      link.href = `#${place.id}`;
      link.textContent = place.dataset.called;
      bar.append(at ? ", " : "", link);
    });
    bar.hidden = !text;
  };

  const say = (found) => {
    for (const place of places) {
      const here = found.text !== "" && found.fields.includes(place.dataset.fault);
      place.hidden = !here;
      place.textContent = here ? found.text : "";
      for (let box = here && place.closest("details"); box; box = box.parentElement.closest("details")) {
        box.open = true;
      }
    }
    sayInBar(found.text, places.filter((place) => !place.hidden));
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
    if (event.target.name === "names" || event.target.name === "names-file") return;
    clearTimeout(waiting);
    waiting = setTimeout(check, 200);
  });
})();
