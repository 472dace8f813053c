"use strict";
// Arrow keys go from step to step, as a presenter's remote does.
document.addEventListener("keydown", (event) => {
  if (event.altKey || event.ctrlKey || event.metaKey || event.shiftKey) return;
  if (event.target.closest("input, textarea, select")) return;
  const target = document.querySelector(`[data-key="${event.key}"] a, [data-key="${event.key}"] button`);
  if (!target) return;
  event.preventDefault();
  target.click();
});
