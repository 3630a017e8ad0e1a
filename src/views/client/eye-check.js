// Answers and close-ups by key, while an answer or a picture has the focus: keys that move about the page must not answer for good.
// Without this script the same are buttons and links.

const ANSWERS = { ArrowLeft: "left", ArrowRight: "right" };

// the page asks for itself while captures are being laid, and is swapped in
document.addEventListener("htmx:after:swap", begin);
begin();

function begin() {
  document.querySelector("[data-eye-keys]")?.removeAttribute("hidden");
  // a close-up chosen by key loads the page anew; the next key is taken as this one was
  if (new URLSearchParams(location.search).has("place")) document.querySelector("[data-eye-close] a")?.focus({ preventScroll: true });
}

document.addEventListener("keydown", (event) => {
  if (event.ctrlKey || event.altKey || event.metaKey || event.repeat) return;
  if (!event.target.closest(".eye-answers, .eye-pair")) return;
  const does = ANSWERS[event.key] ? `.eye-answers button[value="${ANSWERS[event.key]}"]` : `[data-eye-place="${event.key}"]`;
  if (!ANSWERS[event.key] && !/^[1-9]$/.test(event.key)) return;
  event.preventDefault();
  document.querySelector(does)?.click();
});
