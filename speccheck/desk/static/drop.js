// A place to drop files: they go into the field inside it, and their names are shown.
for (const place of document.querySelectorAll("[data-drop]")) {
  const field = place.querySelector("input[type=file]");
  const words = place.querySelector(".words");
  const show = () => { if (field.files.length) words.textContent = [...field.files].map((one) => one.name).join(", "); place.classList.toggle("filled", field.files.length > 0); };
  field.addEventListener("change", show);
  place.addEventListener("dragover", (event) => { event.preventDefault(); place.classList.add("over"); });
  place.addEventListener("dragleave", () => place.classList.remove("over"));
  place.addEventListener("drop", (event) => {
    event.preventDefault();
    place.classList.remove("over");
    if (event.dataTransfer.files.length) { field.files = event.dataTransfer.files; show(); }
  });
  show();
}
