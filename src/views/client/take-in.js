// Files and folders can be dropped on the form. Without this script the two inputs do the same.

const form = document.querySelector("[data-take-in]");
const zone = form?.querySelector("[data-drop-zone]");
const words = form?.querySelector("[data-drop-words]");
const inputs = [...(form?.querySelectorAll('input[type="file"]') ?? [])];
const send = form?.querySelector("[data-send]");
/** With fingers alone nothing is dragged into a page. */
const FINGERS_ALONE = window.matchMedia("(hover: none)").matches;

if (form && zone && words && inputs.length > 0) {
  for (const name of ["dragenter", "dragover"])
    zone.addEventListener(name, (event) => {
      if (!event.dataTransfer?.types.includes("Files")) return;
      event.preventDefault();
      zone.classList.add("is-over");
    });
  for (const name of ["dragleave", "drop"]) zone.addEventListener(name, () => zone.classList.remove("is-over"));
  zone.addEventListener("drop", async (event) => {
    if (!event.dataTransfer?.types.includes("Files")) return;
    event.preventDefault();
    words.textContent = "Looking through what was dropped…";
    const dropped = await filesIn(event.dataTransfer);
    const all = new DataTransfer();
    for (const file of [...inputs[0].files, ...dropped]) all.items.add(file);
    inputs[0].files = all.files;
    tellChosen();
  });
  for (const input of inputs) input.addEventListener("change", tellChosen);
  tellChosen();
  form.addEventListener("submit", () => {
    words.textContent = "Sending. Keep this page open until the answer comes.";
    send?.setAttribute("disabled", "");
  });
  // a page taken from the browser's own store must not come back with a dead button
  window.addEventListener("pageshow", () => send?.removeAttribute("disabled"));
}

function tellChosen() {
  const files = inputs.flatMap((input) => [...input.files]);
  const megabytes = files.reduce((sum, file) => sum + file.size, 0) / 1e6;
  const size = megabytes < 10 ? megabytes.toFixed(1) : Math.round(megabytes);
  words.textContent =
    files.length === 0
      ? FINGERS_ALONE
        ? ""
        : "Files and folders can be dropped here too."
      : `${files.length === 1 ? "One file" : `${files.length} files`} chosen, ${size} MB.`;
}

/** Everything dropped, folders looked through to their end; hidden files of the system are left out. */
async function filesIn(transfer) {
  const entries = [...transfer.items].map((item) => item.webkitGetAsEntry?.()).filter((entry) => entry !== null && entry !== undefined);
  if (entries.length === 0) return [...transfer.files];
  const found = [];
  for (const entry of entries) await collect(entry, found);
  return found.filter((file) => !file.name.startsWith("."));
}

async function collect(entry, found) {
  if (entry.isFile) {
    found.push(await new Promise((resolve, reject) => entry.file(resolve, reject)));
    return;
  }
  const reader = entry.createReader();
  // a reader gives at most a hundred entries at a time, and none when it has given all
  for (;;) {
    const some = await new Promise((resolve, reject) => reader.readEntries(resolve, reject));
    if (some.length === 0) return;
    for (const inner of some) await collect(inner, found);
  }
}
