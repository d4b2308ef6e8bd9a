'use strict';
// Printing needs a script; without one the browser's own menu does it.
for (const button of document.querySelectorAll('[data-print]')) {
  button.hidden = false;
  button.addEventListener('click', () => window.print());
}
