// Copies the findings that are shown, as text or as rows for a spreadsheet. Opens what the address names.
const shown = () => [...document.querySelectorAll("[data-finding]")].map((one) => ({ ...one.dataset }));
const WRITERS = {
  text: (all) => all.map((one) => `${one.line}, ${one.label}: ${one.verdict}. ${one.reason}`).join("\n"),
  rows: (all) => all.map((one) => [one.line, one.label, one.verdict, one.reason].map((text) => safe(text)).join("\t")).join("\n"),
};
// A text that a spreadsheet would take for a formula is kept a text.
const safe = (text) => (/^[=+\-@]/.test(text) ? `'${text}` : text).replace(/[\t\n]/g, " ");
for (const button of document.querySelectorAll("[data-copy]")) {
  button.addEventListener("click", async () => {
    const all = shown();
    await navigator.clipboard.writeText(WRITERS[button.dataset.copy](all));
    document.querySelector("[data-copied]").value = `${all.length} copied`;
  });
}
const named = document.getElementById(location.hash.slice(1));
if (named) { const notes = named.querySelector("details"); if (notes) notes.open = true; named.scrollIntoView({ block: "center" }); }
