'use strict';
// Maps of the panel: wheel or two fingers zoom, dragging moves, a double click shows all again.
for (const box of document.querySelectorAll('[data-map]')) {
  const svg = box.querySelector('svg');
  const all = svg.getAttribute('viewBox').split(' ').map(Number);
  let view = all.slice();
  const fingers = new Map();
  let spread = 0;
  let moved = 0;

  const set = (v) => { view = v; svg.setAttribute('viewBox', v.join(' ')); };
  const at = (x, y) => {
    const p = new DOMPoint(x, y).matrixTransform(svg.getScreenCTM().inverse());
    return [p.x, p.y];
  };
  const zoom = (x, y, by) => {
    const w = Math.min(all[2], Math.max(all[2] / 60, view[2] * by));
    const f = w / view[2];
    const [px, py] = at(x, y);
    set([px - (px - view[0]) * f, py - (py - view[1]) * f, w, view[3] * f]);
  };
  svg.addEventListener('wheel', (e) => { e.preventDefault(); zoom(e.clientX, e.clientY, e.deltaY > 0 ? 1.25 : 0.8); }, { passive: false });
  svg.addEventListener('dblclick', () => set(all.slice()));
  svg.addEventListener('pointerdown', (e) => { fingers.set(e.pointerId, e); moved = 0; });
  svg.addEventListener('pointermove', (e) => {
    if (!fingers.has(e.pointerId)) return;
    const before = fingers.get(e.pointerId);
    fingers.set(e.pointerId, e);
    if (fingers.size === 1) {
      const [x0, y0] = at(before.clientX, before.clientY);
      const [x1, y1] = at(e.clientX, e.clientY);
      moved += Math.abs(e.clientX - before.clientX) + Math.abs(e.clientY - before.clientY);
      if (moved > 6) set([view[0] + x0 - x1, view[1] + y0 - y1, view[2], view[3]]);
    } else if (fingers.size === 2) {
      const [a, b] = [...fingers.values()];
      const d = Math.hypot(a.clientX - b.clientX, a.clientY - b.clientY);
      if (spread) zoom((a.clientX + b.clientX) / 2, (a.clientY + b.clientY) / 2, spread / d);
      spread = d;
    }
  });
  for (const up of ['pointerup', 'pointercancel', 'pointerleave']) {
    svg.addEventListener(up, (e) => { fingers.delete(e.pointerId); spread = 0; });
  }
  // Other scripts light a placement up.
  box.light = (key, on, className) => {
    const g = svg.querySelector(`[data-place="${CSS.escape(key)}"]`);
    if (g) g.classList.toggle(className || 'lit', on);
    return g;
  };
  box.ring = (key) => {
    const marks = svg.querySelector('.marks');
    marks.replaceChildren();
    const g = svg.querySelector(`[data-place="${CSS.escape(key)}"] rect`);
    if (!g) return;
    const t = /translate\(([^ ]+) ([^)]+)\)/.exec(g.getAttribute('transform'));
    const unit = Number(svg.dataset.unit) * (view[2] / all[2]);
    const ring = document.createElementNS('http://www.w3.org/2000/svg', 'circle');
    ring.setAttribute('class', 'ring');
    ring.setAttribute('cx', t[1]);
    ring.setAttribute('cy', t[2]);
    ring.setAttribute('r', String(unit * 1.6));
    marks.append(ring);
  };
}
document.dispatchEvent(new Event('padtrue-maps'));
