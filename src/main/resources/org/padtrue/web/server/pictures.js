'use strict';
// Pictures: the progress while they are measured; accepting, moving, rejecting single poses.
(() => {
  const working = document.querySelector('[data-working]');
  if (working) {
    const bar = working.querySelector('progress');
    const text = working.querySelector('[data-working-text]');
    const ask = async () => {
      try {
        const r = await fetch(working.dataset.working, { headers: { 'X-Piece': '1' } });
        const [state, done, all, stage] = (await r.text()).split('\t');
        if (state === 'done') { location.reload(); return; }
        if (all === '0') {
          bar.removeAttribute('value');
        } else {
          bar.max = Math.max(1, Number(all));
          bar.value = Number(done);
        }
        text.textContent = stage ? `${stage[0].toUpperCase()}${stage.slice(1)} …` : all === '0' ? 'Looking for the fiducials.' : `${done} of ${all} placements looked at.`;
      } catch { text.textContent = 'The server does not answer; trying again.'; }
      setTimeout(ask, 700);
    };
    ask();
  }
  const list = document.querySelector('.crops');
  if (!list) return;
  const SVG = 'http://www.w3.org/2000/svg';

  for (const card of list.querySelectorAll('.crop')) {
    const svg = card.querySelector('svg');
    const said = card.querySelector('.said');
    const keep = card.querySelector('[data-what="move"]');
    const at = { x: 0, y: 0, turn: 0 };
    let from = null;

    const draw = () => {
      const g = svg.querySelector('.pose');
      g.setAttribute('transform', `translate(${at.x} ${at.y}) rotate(${-at.turn} ${svg.dataset.x} ${svg.dataset.y})`);
      keep.disabled = at.x === 0 && at.y === 0 && at.turn === 0;
      said.textContent = keep.disabled ? said.textContent : 'moved, not kept yet';
    };
    const point = (e) => {
      const p = new DOMPoint(e.clientX, e.clientY).matrixTransform(svg.getScreenCTM().inverse());
      return [p.x, p.y];
    };
    if (svg) {
      svg.addEventListener('pointerdown', (e) => { svg.setPointerCapture(e.pointerId); const [x, y] = point(e); from = { x: x - at.x, y: y - at.y }; });
      svg.addEventListener('pointermove', (e) => {
        if (!from) return;
        const [x, y] = point(e);
        at.x = x - from.x;
        at.y = y - from.y;
        draw();
      });
      svg.addEventListener('pointerup', () => { from = null; });
      svg.addEventListener('keydown', (e) => {
        const by = e.shiftKey ? 4 : 0.25;
        const step = { ArrowLeft: [-by, 0, 0], ArrowRight: [by, 0, 0], ArrowUp: [0, -by, 0], ArrowDown: [0, by, 0], ',': [0, 0, 0.5], '.': [0, 0, -0.5] }[e.key];
        if (!step) return;
        e.preventDefault();
        at.x += step[0];
        at.y += step[1];
        at.turn += step[2];
        draw();
      });
    }
    for (const b of card.querySelectorAll('[data-what]')) {
      b.addEventListener('click', async () => {
        const what = b.dataset.what;
        try {
          const r = await padtrue.post(`/articles/${list.dataset.article}/pictures/pose`, {
            placement: card.dataset.key, what, x: at.x.toFixed(4), y: at.y.toFixed(4), turn: at.turn.toFixed(4),
          });
          const text = await r.text();
          card.dataset.verdict = r.ok ? { accept: 'accepted', reject: 'rejected', move: 'moved' }[what] : card.dataset.verdict;
          said.textContent = r.ok ? card.dataset.verdict : text;
        } catch { said.textContent = 'not on disk: the server does not answer; try again'; }
      });
    }
  }
  for (const o of document.querySelectorAll('[data-outline]')) {
    o.addEventListener('click', () => {
      const card = list.querySelector(`[data-key="${CSS.escape(o.dataset.outline)}"]`);
      if (!card) return;
      card.scrollIntoView({ block: 'center' });
      card.querySelector('svg')?.focus({ preventScroll: true });
    });
  }
})();
