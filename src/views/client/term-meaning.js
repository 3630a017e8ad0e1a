// The meaning and the levels of a typed term stand beside its field at once. Without this script they come when the form is sent.

const meanings = new Map();
for (const entry of document.querySelectorAll("[data-term-names]")) {
  const [name, ...others] = entry.dataset.termNames.toLowerCase().split("|");
  meanings.set(name, { name, entry });
  // what two terms are called tells neither; a term's own name always wins
  for (const other of others) {
    const known = meanings.get(other);
    if (known?.name !== other) meanings.set(other, known && known.entry !== entry ? { name: null, entry: null } : { name, entry });
  }
}

for (const choice of document.querySelectorAll("[data-term-choice]")) {
  const field = choice.querySelector('input[name$=".term"]');
  const level = choice.querySelector('select[name$=".severity"]');
  const beside = choice.querySelector("[data-term-beside]");
  const general = [...level.options].map(({ text }) => text);
  let shown = null;
  field.addEventListener("input", tell);
  tell();

  function tell() {
    const entry = meanings.get(field.value.trim().toLowerCase())?.entry ?? null;
    if (entry === shown) return;
    shown = entry;
    beside.replaceChildren(...(entry ? [entry.querySelector(".term-meaning").cloneNode(true)] : []));
    for (const [index, option] of [...level.options].entries()) {
      const anchor = entry?.querySelector(`[data-level="${option.value}"]`);
      option.text = anchor ? anchor.textContent : general[index];
    }
  }
}
