// What is shown stands in the address behind the name of a place, so that it can be sent: #cell-12-4?verdict=0&text=steam
const form = document.getElementById("filters");
const WISHES = ["verdict", "service", "clause", "text", "group", "sort"];

function wishes() {
  return Object.fromEntries(WISHES.map((key) => [key, form.elements[key].value.trim()]));
}

function inAddress() {
  const [name, asked = ""] = location.hash.slice(1).split("?");
  return { name, asked: new URLSearchParams(asked) };
}

function keepInAddress(name) {
  const asked = new URLSearchParams(Object.entries(wishes()).filter(([, value]) => value));
  const said = String(asked);
  if (!said && !name && !location.hash) return;
  history.replaceState(null, "", `#${name || "matrix"}${said ? `?${said}` : ""}`);
}

function takeFromAddress() {
  const { asked } = inAddress();
  for (const key of WISHES) if (asked.has(key)) form.elements[key].value = asked.get(key);
}
