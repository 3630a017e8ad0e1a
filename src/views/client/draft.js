// What is typed into a form is kept in this browser until the form is kept, so that a closed or reloaded page loses nothing. Fields of
// earlier findings are told apart by the finding, not by their row. Of several small forms on a page each keeps its own, and says nothing
// of it: a page that comes back because one was sent shows the others as they were. Without this script the form works as ever.

const PREFIX = "solander-draft:";
const MOST_DRAFTS = 20;
const MOST_LETTERS = 100_000;

for (const form of document.querySelectorAll("form[data-draft]")) keepDraftOf(form);

function keepDraftOf(form) {
  const key = PREFIX + form.dataset.draft;
  const isOneOfMany = form.dataset.draftOneOfMany !== undefined;
  const fields = new Map(
    [...form.elements].filter(({ name, type }) => name && !/hidden|submit/.test(type)).map((field) => [placeOf(field), field]),
  );
  const draft = read(key);
  // the answer to a form that was sent shows what was sent, which is newer than the draft
  const isAnswer = form.dataset.draftAnswer !== undefined;
  const wasKept = draft?.isSent && draft.after !== form.dataset.draftAfter;
  if (isAnswer) write(true);
  else if (wasKept) remove(key);
  else if (draft) restore(draft);

  for (const kind of ["input", "change"]) form.addEventListener(kind, () => write(isAnswer));
  form.addEventListener("submit", ({ submitter }) => {
    if (isOneOfMany) return remove(key);
    const kept = read(key);
    if (kept && (submitter?.value || "save") === "save") store(key, { ...kept, after: form.dataset.draftAfter, isSent: true });
  });

  function write(isWhole) {
    const typed = [...fields].filter(([, field]) => isWhole || field.value !== valueAtFirst(field));
    const values = Object.fromEntries(typed.map(([place, field]) => [place, field.value]));
    if (typed.length === 0) remove(key);
    else tellWhereFull(store(key, { values, at: Date.now(), after: form.dataset.draftAfter, isSent: false }));
  }

  function restore({ values, at }) {
    if (needsRows(values)) return;
    const lost = [];
    for (const [place, value] of Object.entries(values)) {
      const field = fields.get(place);
      if (field) fill(field, value);
      if (field?.value !== value && value !== "") lost.push(value);
    }
    if (!isOneOfMany) tell(at, lost);
  }

  /** True where the page is asked for again, with as many rows as the draft has. */
  function needsRows(values) {
    const typed = Object.entries(values).filter(([, value]) => value !== "");
    const rows = typed.map(([place]) => Number(/^found\.(\d+)\./.exec(place)?.[1] ?? -1) + 1);
    const most = Math.max(0, ...rows);
    const address = new URL(location.href);
    if (most === 0 || fields.has(`found.${most - 1}.term`) || Number(address.searchParams.get("rows")) >= most) return false;
    address.searchParams.set("rows", String(most));
    location.replace(address);
    return true;
  }

  function tell(at, lost) {
    const notice = element("div", { class: "notice notice-notice draft-notice", role: "status", tabindex: "-1" });
    const when = new Date(at).toLocaleString("en-GB", { day: "numeric", month: "long", hour: "2-digit", minute: "2-digit" });
    notice.append(element("p", {}, `What was typed here on ${when} and not saved is filled in again. It is kept in this browser alone.`));
    if (lost.length > 0) {
      const list = element("ul", {});
      list.append(...lost.map((value) => element("li", {}, value)));
      notice.append(element("p", {}, "For this the form has no field any more:"), list);
    }
    const discard = element("button", { type: "button", class: "button button-quiet" }, "Discard what was typed");
    discard.addEventListener("click", () => {
      for (const field of fields.values()) fill(field, valueAtFirst(field));
      remove(key);
      notice.remove();
      [...fields.values()][0]?.focus();
    });
    notice.append(discard);
    form.before(notice);
    // a button that waits for Enter would go on without what was typed
    if (document.querySelector("button[autofocus]")) notice.focus();
  }

  function tellWhereFull(isStored) {
    if (isStored || form.querySelector(".draft-full")) return;
    const words = "This browser does not keep what is typed here. Save before you leave the page.";
    form.append(element("p", { class: "draft-full hint", role: "status" }, words));
  }
}

/** A name that holds when rows have moved. */
function placeOf({ form, name }) {
  const [, row, field] = /^rejudged\.(\d+)\.(\w+)$/.exec(name) ?? [];
  return row === undefined ? name : `finding ${form.elements[`rejudged.${row}.findingId`].value} ${field}`;
}

function valueAtFirst(field) {
  if (field.tagName !== "SELECT") return field.defaultValue;
  return ([...field.options].find(({ defaultSelected }) => defaultSelected) ?? field.options[0]).value;
}

function fill(field, value) {
  field.value = value;
  if (field.tagName === "SELECT" && field.selectedIndex < 0) field.value = valueAtFirst(field);
  field.dispatchEvent(new Event("input", { bubbles: true }));
}

/** A browser may refuse to keep anything, and somebody else may have written there. */
function read(key) {
  try {
    const draft = JSON.parse(localStorage.getItem(key));
    return draft && typeof draft.values === "object" ? draft : null;
  } catch {
    return null;
  }
}

/** False where it cannot be kept. The oldest drafts make room. */
function store(key, draft) {
  const text = JSON.stringify(draft);
  if (text.length > MOST_LETTERS) return false;
  try {
    const others = Object.keys(localStorage).filter((other) => other.startsWith(PREFIX) && other !== key);
    const oldestFirst = others.sort((a, b) => (read(a)?.at ?? 0) - (read(b)?.at ?? 0));
    for (const other of oldestFirst.slice(0, Math.max(0, others.length - MOST_DRAFTS + 1))) remove(other);
    localStorage.setItem(key, text);
    return true;
  } catch {
    return false;
  }
}

function remove(key) {
  try {
    localStorage.removeItem(key);
  } catch {
    // then nothing was kept either
  }
}

function element(name, attributes, text) {
  const made = document.createElement(name);
  for (const [key, value] of Object.entries(attributes)) made.setAttribute(key, value);
  if (text !== undefined) made.textContent = text;
  return made;
}
