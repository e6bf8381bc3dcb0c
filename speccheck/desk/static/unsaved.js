// Asks before a page is left on which somebody has typed a note or clauses that are not saved.
let unsaved = false;
addEventListener("input", (event) => { if (event.target.matches("form[method=post] textarea")) unsaved = true; });
addEventListener("submit", () => { unsaved = false; });
addEventListener("beforeunload", (event) => { if (unsaved) event.preventDefault(); });
