// On a phone what is marked folds to its title, so that it does not push away what stands below. Without this script it stays open.

if (window.matchMedia("(width < 48rem)").matches)
  for (const each of document.querySelectorAll("details[data-fold-on-phone]")) each.removeAttribute("open");
