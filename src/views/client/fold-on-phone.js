// On a phone what is marked folds to its title, so that it does not push away what stands below; what the address asks for stays open.
// Without this script everything does.

if (window.matchMedia("(width < 48rem)").matches) {
  const asked = location.hash ? document.getElementById(location.hash.slice(1)) : null;
  for (const each of document.querySelectorAll("details[data-fold-on-phone]")) if (!each.contains(asked)) each.removeAttribute("open");
}
