'use strict';
// Maps of the panel: wheel or two fingers zoom, dragging moves, a double click shows all again. One tab stop:
// arrow keys go to the next placement that way, Enter takes it, + and - zoom, 0 shows all.
for (const box of document.querySelectorAll('[data-map]')) {
  const svg = box.querySelector('svg');
  const turned = svg.querySelector('.turned');
  const bar = box.querySelector('.scale');
  const upright = svg.getAttribute('viewBox').split(' ').map(Number);
  let all = upright.slice();
  let view = all.slice();
  let turn = 0;
  let mirrored = false;
  const fingers = new Map();
  let spread = 0;
  let moved = 0;

  const set = (v) => { view = v; svg.setAttribute('viewBox', v.join(' ')); scale(); };
  const at = (x, y) => {
    const p = new DOMPoint(x, y).matrixTransform(svg.getScreenCTM().inverse());
    return [p.x, p.y];
  };
  // A bar of 1, 2 or 5 times a power of ten mm, about a hundred pixels long.
  const scale = () => {
    const m = svg.getScreenCTM();
    if (!bar || !m || !m.a) return;
    const ten = 10 ** Math.floor(Math.log10(120 / m.a));
    const mm = [5, 2, 1].map((f) => f * ten).find((l) => l * m.a <= 120) || ten;
    bar.querySelector('span').style.width = `${mm * m.a}px`;
    bar.querySelector('b').textContent = `${Number(mm.toPrecision(1))} mm`;
  };
  const zoom = (x, y, by) => {
    const w = Math.min(all[2], Math.max(all[2] / 60, view[2] * by));
    const f = w / view[2];
    const [px, py] = at(x, y);
    set([px - (px - view[0]) * f, py - (py - view[1]) * f, w, view[3] * f]);
  };
  const middle = (by) => {
    const r = svg.getBoundingClientRect();
    zoom(r.left + r.width / 2, r.top + r.height / 2, by);
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

  // Panels of a job are alike: where one panel is drawn, a placement of any panel is found on it.
  const find = (key) => svg.querySelector(`[data-place="${CSS.escape(key)}"]`)
    || (box.dataset.anyPanel === 'true' && svg.querySelector(`[data-place="${CSS.escape(key.replace(/^[^/]*/, 'P1'))}"]`));
  const place = (g) => /translate\(([^ ]+) ([^)]+)\)/.exec(g.querySelector('rect').getAttribute('transform')).slice(1).map(Number);
  // Where a point of the panel lies in the turned drawing (y down).
  const seen = ([x, y]) => {
    const a = (turn * Math.PI) / 180;
    const c = Math.round(Math.cos(a));
    const s = Math.round(Math.sin(a));
    const [u, v] = [c * x + s * y, -s * x + c * y];
    return [mirrored ? -u : u, v];
  };
  box.turn = (degrees, mirror) => {
    turn = degrees;
    mirrored = mirror;
    turned.setAttribute('transform', `${mirror ? 'scale(-1 1) ' : ''}rotate(${-degrees})`);
    for (const t of turned.querySelectorAll('[data-upright]')) {
      const [x, y] = [t.getAttribute('x'), t.getAttribute('y')];
      t.setAttribute('transform', `translate(${x} ${y}) rotate(${degrees}) ${mirror ? 'scale(-1 1)' : ''} translate(${-x} ${-y})`);
    }
    const [x, y, w, h] = upright;
    const corners = [seen([x, y]), seen([x + w, y + h])];
    const left = Math.min(corners[0][0], corners[1][0]);
    const top = Math.min(corners[0][1], corners[1][1]);
    all = [left, top, Math.abs(corners[0][0] - corners[1][0]), Math.abs(corners[0][1] - corners[1][1])];
    set(all.slice());
  };
  box.zoomTo = (key) => {
    const g = find(key);
    if (!g) return;
    const [x, y] = seen(place(g));
    const w = Math.min(all[2], Math.max(all[2] / 6, 24));
    set([x - w / 2, y - (w * all[3]) / all[2] / 2, w, (w * all[3]) / all[2]]);
  };
  // Other scripts light a placement up.
  box.light = (key, on, className) => {
    const g = find(key);
    if (g) g.classList.toggle(className || 'lit', on);
    return g;
  };
  box.ring = (key) => {
    const marks = svg.querySelector('.marks');
    marks.replaceChildren();
    const g = find(key);
    if (!g) return;
    const [x, y] = place(g);
    const ring = document.createElementNS('http://www.w3.org/2000/svg', 'circle');
    ring.setAttribute('class', 'ring');
    ring.setAttribute('cx', x);
    ring.setAttribute('cy', y);
    ring.setAttribute('r', String(Number(svg.dataset.unit) * (view[2] / all[2]) * 1.6));
    marks.append(ring);
  };

  // By keys
  const places = [...svg.querySelectorAll('.place')];
  let stop = places[0];
  if (stop) stop.setAttribute('tabindex', '0');
  const to = (g) => {
    stop.removeAttribute('tabindex');
    stop = g;
    stop.setAttribute('tabindex', '0');
    stop.focus();
  };
  const WAYS = { ArrowLeft: [-1, 0], ArrowRight: [1, 0], ArrowUp: [0, -1], ArrowDown: [0, 1] };
  svg.addEventListener('keydown', (e) => {
    if (e.key === 'Enter' || e.key === ' ') {
      e.preventDefault();
      document.activeElement.dispatchEvent(new MouseEvent('click', { bubbles: true }));
    } else if (e.key === '+' || e.key === '-') {
      middle(e.key === '+' ? 0.8 : 1.25);
    } else if (e.key === '0') {
      set(all.slice());
    } else if (WAYS[e.key] && stop) {
      e.preventDefault();
      const [wx, wy] = WAYS[e.key];
      const [x, y] = seen(place(stop));
      let best = null;
      let least = Infinity;
      for (const g of places) {
        const [u, v] = seen(place(g));
        const along = (u - x) * wx + (v - y) * wy;
        const aside = Math.abs((u - x) * wy) + Math.abs((v - y) * wx);
        if (g !== stop && along > 1e-6 && along + 2.5 * aside < least) { best = g; least = along + 2.5 * aside; }
      }
      if (best) to(best);
    }
  });
  new ResizeObserver(scale).observe(svg);
  scale();
}
document.dispatchEvent(new Event('padtrue-maps'));
