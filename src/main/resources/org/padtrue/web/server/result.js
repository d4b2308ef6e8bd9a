'use strict';
// The result's map: before and after, a placement's numbers, pairs that come near.
(() => {
  const result = document.querySelector('.result');
  if (!result) return;
  const map = result.querySelector('[data-map]');
  const detail = document.getElementById('placement');
  let lit = [];
  let asked = '';

  const light = (keys) => {
    lit.forEach((k) => map.light(k, false));
    lit = keys.filter((k) => k);
    lit.forEach((k) => map.light(k, true));
    if (lit.length) map.ring(lit[0]);
  };
  const tell = (key) => {
    if (key === asked) return;
    asked = key;
    padtrue.piece(`/articles/${result.dataset.article}/placement?key=${encodeURIComponent(key)}`, detail);
  };
  for (const r of map.querySelectorAll('input[name="arrows"]')) {
    r.addEventListener('change', () => { map.dataset.show = r.value; });
  }
  for (const kind of ['click', 'pointerover']) {
    map.addEventListener(kind, (e) => {
      const g = e.target.closest('[data-place]');
      if (!g || (kind === 'pointerover' && e.pointerType !== 'mouse')) return;
      tell(g.dataset.place);
      if (kind === 'click') light([g.dataset.place]);
    });
  }
  for (const b of result.querySelectorAll('[data-light]')) {
    b.addEventListener('click', () => {
      light([b.dataset.light, b.dataset.with]);
      tell(b.dataset.light);
      map.scrollIntoView({ block: 'nearest' });
    });
  }
  // What if: an unticked trim is sent as turned off.
  const what = result.querySelector('[data-whatif]');
  if (what) {
    const off = [...what.querySelectorAll('input[name="off"]')];
    const set = (box) => { off.find((o) => o.value === box.dataset.key).disabled = box.checked; };
    for (const box of what.querySelectorAll('[data-key]')) {
      box.addEventListener('change', () => { set(box); what.requestSubmit(); });
    }
  }
})();
