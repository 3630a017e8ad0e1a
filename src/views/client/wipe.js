// Lays the newer capture over the older one with a slider between them. Without this script both stand side by side.

for (const wipe of document.querySelectorAll("[data-wipe]")) {
  const label = document.createElement("label");
  label.className = "wipe-slider";
  const range = document.createElement("input");
  Object.assign(range, { type: "range", min: "0", max: "100", value: "50" });
  label.append("Older", range, "Newer");
  range.setAttribute("aria-label", "How much of the newer capture is shown, percent");
  const show = () => wipe.style.setProperty("--shown", `${range.value}%`);
  range.addEventListener("input", show);
  show();
  wipe.classList.add("wipe-on");
  wipe.after(label);
}
