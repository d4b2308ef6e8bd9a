'use strict';
// What all pages share: the session's token, sending, and files dropped on a form.
const padtrue = {
  token: document.querySelector('meta[name="token"]').content,

  async renew() {
    const r = await fetch('/token', { headers: { 'X-Piece': '1' } });
    if (!r.ok) return false;
    padtrue.token = await r.text();
    document.querySelectorAll('input[name="token"]').forEach((i) => { i.value = padtrue.token; });
    return true;
  },

  // Sends a form; once more with a new token where the session is from before a restart.
  async post(url, fields) {
    const send = () => fetch(url, {
      method: 'POST',
      headers: { 'X-Token': padtrue.token, 'X-Piece': '1' },
      body: new URLSearchParams(fields),
    });
    let r = await send();
    if ((r.status === 401 || r.status === 403) && await padtrue.renew()) r = await send();
    return r;
  },

  async piece(url, into) {
    const r = await fetch(url, { headers: { 'X-Piece': '1' } });
    if (r.ok) into.innerHTML = await r.text();
    return r.ok;
  },
};

for (const form of document.querySelectorAll('[data-drop]')) {
  const input = form.querySelector('input[type="file"]');
  for (const over of ['dragenter', 'dragover']) {
    form.addEventListener(over, (e) => { e.preventDefault(); form.classList.add('over'); });
  }
  for (const out of ['dragleave', 'drop']) form.addEventListener(out, () => form.classList.remove('over'));
  form.addEventListener('drop', (e) => {
    e.preventDefault();
    input.files = e.dataTransfer.files;
    form.requestSubmit();
  });
  form.addEventListener('submit', () => {
    const button = form.querySelector('button');
    button.disabled = true;
    button.textContent = 'Sending and reading …';
  });
}
