// Answers and close-ups by key. Without this script the same are buttons and links.

const form = document.querySelector("[data-eye-check]");
const ANSWERS = { ArrowLeft: "left", ArrowRight: "right", ArrowDown: "cannot-tell" };
document.querySelector("[data-eye-keys]")?.removeAttribute("hidden");

document.addEventListener("keydown", (event) => {
  if (event.ctrlKey || event.altKey || event.metaKey || event.repeat) return;
  const answer = ANSWERS[event.key];
  if (answer) {
    event.preventDefault();
    form?.querySelector(`button[value="${answer}"]`)?.click();
  }
  if (/^[1-9]$/.test(event.key)) document.querySelector(`[data-eye-place="${event.key}"]`)?.click();
});
