// Filters, groups and order: what is chosen is arranged and drawn anew, in the matrix and in the lists below it.
function renew() {
  arrange();
  redraw();
}

function applyFilters() {
  renew();
  filterLists();
  const { lines, clauses, fits } = arrangement;
  form.elements.shown.value = !fits ? "" : lines.length
    ? `${lines.length} of ${table.lines.length} lines, ${clauses.length} of ${CLAUSES} clauses`
    : "No cell of the matrix fits all of these.";
}

form.addEventListener("input", () => { applyFilters(); keepInAddress(""); });
form.addEventListener("reset", () => setTimeout(() => { chosen.clear(); applyFilters(); keepInAddress(""); }));
form.addEventListener("submit", (event) => event.preventDefault());
