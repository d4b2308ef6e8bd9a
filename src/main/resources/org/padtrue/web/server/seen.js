'use strict';
// A form that several people may have open: says when another page has kept something since.
for (const form of document.querySelectorAll('form[data-seen]')) {
  const news = document.createElement('p');
  news.className = 'changed';
  news.setAttribute('role', 'status');
  news.hidden = true;
  form.prepend(news);
  const ask = async () => {
    try {
      const r = await fetch(form.dataset.seen, { headers: { 'X-Piece': '1' } });
      if (r.ok && (await r.text()) !== form.elements.seen.value) {
        news.textContent = 'Another page has kept something here since this one was opened. What you type is not stored over it: when you keep it you are shown both.';
        news.hidden = false;
      }
    } catch { /* the next time tries again */ }
    setTimeout(ask, 3000);
  };
  setTimeout(ask, 3000);
}
