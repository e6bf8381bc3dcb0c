// What an address names is opened: a finding of the list, or the cell of the matrix that it is about.
function openNamed() {
  const named = document.getElementById(decodeURIComponent(location.hash.slice(1)));
  const told = named?.closest("details");
  if (told) { told.open = true; named.scrollIntoView({ block: "center" }); return; }
  const cell = /^#(?:cell|finding)-([0-9]+)-([0-9]+)$/.exec(location.hash);
  const place = cell && grid.tBodies[0].rows[Number(cell[1])]?.cells[Number(cell[2]) + 1];
  if (place) { makeCurrent(place); openPanel(place); }
}
addEventListener("hashchange", openNamed);
openNamed();
