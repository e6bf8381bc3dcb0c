// What the matrix shows, to take along: as a file of comma-separated values (RFC 4180), or as rows for a spreadsheet.
const taken = document.getElementById("taken");
// A text that a spreadsheet would take for a formula is kept a text.
const safe = (words) => (/^[=+\-@\t\r]/.test(words) ? `'${words}` : words);
const quoted = (words) => `"${safe(words).replaceAll('"', '""')}"`;

function shownRows() {
  const lines = arrangement.lines.map((line) => {
    const [name, brief] = table.lines[line];
    return [name, text(brief), ...arrangement.clauses.map((clause) => kindAt(line, clause).mark)];
  });
  return [["Line", "What it is", ...arrangement.clauses.map((clause) => table.clauses[clause][0])], ...lines];
}

const TAKE = {
  save(rows) {
    const file = new Blob([`\ufeff${rows.map((row) => row.map(quoted).join(",")).join("\r\n")}\r\n`], { type: "text/csv" });
    const link = element("a", "");
    link.href = URL.createObjectURL(file);
    link.download = "matrix.csv";
    link.click();
    setTimeout(() => URL.revokeObjectURL(link.href), 10000);
    return "saved";
  },
  async copy(rows) {
    try {
      await navigator.clipboard.writeText(rows.map((row) => row.map((words) => safe(words).replace(/[\t\n]/g, " ")).join("\t")).join("\n"));
      return "copied";
    } catch {
      return "not copied: the browser does not allow it here; save it instead:";
    }
  },
};

for (const one of document.querySelectorAll("[data-take]")) {
  one.addEventListener("click", async () => {
    const rows = shownRows();
    taken.value = `${await TAKE[one.dataset.take](rows)} ${rows.length - 1} lines`;
  });
}
