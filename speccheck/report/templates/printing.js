// Before printing every finding is opened; afterwards those that were closed are closed again.
let closed = [];
addEventListener("beforeprint", () => {
  closed = [...document.querySelectorAll("details:not([open])")];
  for (const item of closed) item.open = true;
});
addEventListener("afterprint", () => {
  for (const item of closed) item.open = false;
});
