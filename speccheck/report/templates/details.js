// The table of cells that the page carries, and its texts put back where the numbers stand.
const table = JSON.parse(document.getElementById("details").textContent);
const text = (number) => table.texts[number];

const where = (sheet, cell) => [text(sheet), cell].filter(Boolean).join(", ");

function lineAt(line) {
  const [name, sheet, cell, data] = table.lines[line];
  return {
    name, place: where(sheet, cell),
    data: data.map(([term, written, readAs, sheet, cell, note]) => ({
      term: text(term), written: text(written), readAs: text(readAs), place: where(sheet, cell), note: text(note),
    })),
  };
}

function cellAt(line, clause) {
  const [verdict, mandatory, basis, reason, steps, missing, at, notes, advice, adviceReason] =
    table.cells[table.grid[line][clause]];
  return {
    verdict, mandatory: Boolean(mandatory), basis: text(basis), reason: text(reason),
    steps: steps.map((number) => table.steps[number]).map(([part, depth, truth, words, detail]) => ({
      part: text(part), depth, truth: ["does not hold", "holds"][truth] ?? "not known", words: text(words), detail: text(detail),
    })),
    missing: missing.map(text), at: at.map(text), notes: notes.map(text),
    advice: advice < 0 ? null : table.verdicts[advice], adviceOpen: advice === 0 || advice === 1,
    adviceReason: text(adviceReason),
  };
}
