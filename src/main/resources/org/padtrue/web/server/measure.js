'use strict';
// Typing measurements: keyboard alone, every entry on disk before the page says so.
(() => {
  const bench = document.querySelector('.bench');
  const article = bench.dataset.article;
  const base = `/articles/${article}`;
  const store = `padtrue ${article}`;
  const rows = [...bench.querySelectorAll('tr[data-key]')];
  const byKey = new Map(rows.map((r) => [r.dataset.key, r]));
  const unit = document.getElementById('unit');
  const as = document.getElementById('as');
  const saved = document.getElementById('saved');
  const map = bench.querySelector('[data-map]');
  const MM = { mm: 1, um: 0.001, mil: 0.0254 };
  const DIGITS = { mm: 4, um: 1, mil: 3 };
  let sequence = Number(bench.dataset.sequence);
  let queue = read();
  let sending = false;
  let pause = 1000;
  let fitTimer = 0;

  const inputs = (row) => [...row.querySelectorAll('input')];
  const field = (row, name) => row.querySelector(`[data-field="${name}"]`);
  const state = (row, s) => { row.querySelector('.state').dataset.state = s; };

  function read() {
    try { return JSON.parse(localStorage.getItem(store)) || {}; } catch { return {}; }
  }
  function write() {
    try { localStorage.setItem(store, JSON.stringify(queue)); } catch { /* the server has it soon */ }
  }

  // Numbers as they are shown: in the chosen unit, as deviation or as measured position.
  function shown(row, axis) {
    const d = row.dataset[axis === 'rotation' ? 'turn' : `d${axis}`];
    if (d === '') return '';
    const nominal = as.value === 'pose' ? Number(row.dataset[axis]) : 0;
    const v = axis === 'rotation' ? Number(d) + nominal : (Number(d) + nominal) / MM[unit.value];
    return String(Number(v.toFixed(axis === 'rotation' ? 4 : DIGITS[unit.value])));
  }
  function show(row) {
    if (queue[row.dataset.key]) return;
    for (const axis of ['x', 'y', 'rotation']) field(row, axis).value = shown(row, axis);
    row.dataset.shown = texts(row).join('\t');
  }
  const texts = (row) => inputs(row).map((i) => i.value.trim());

  function heads() {
    const pose = as.value === 'pose';
    const u = unit.options[unit.selectedIndex].text;
    bench.querySelector('[data-head="x"]').textContent = `${pose ? 'x' : 'dx'}, ${u}`;
    bench.querySelector('[data-head="y"]').textContent = `${pose ? 'y' : 'dy'}, ${u}`;
    bench.querySelector('[data-head="rotation"]').textContent = `${pose ? 'rotation' : 'd rotation'}, °`;
  }

  // Saving
  function keep(row) {
    const t = texts(row);
    if (t.join('\t') === row.dataset.shown) return;
    if (t[0] === '' !== (t[1] === '')) { state(row, 'typed'); return; }
    queue[row.dataset.key] = { x: t[0], y: t[1], rotation: t[2], unit: unit.value, as: as.value, seen: sequence };
    row.dataset.shown = t.join('\t');
    write();
    state(row, 'waiting');
    say();
    send();
  }
  function say() {
    const n = Object.keys(queue).length;
    saved.textContent = n === 0 ? 'Everything typed is on disk.' : `${n} not yet on disk; kept in this browser and sent again until they are.`;
    saved.classList.toggle('not', n > 0);
  }
  async function send() {
    if (sending) return;
    sending = true;
    try {
      for (let key = Object.keys(queue)[0]; key; key = Object.keys(queue).find((k) => !queue[k].refused)) {
        if (queue[key].refused) break;
        const q = queue[key];
        const r = await padtrue.post(`${base}/entries`, { placement: key, ...q });
        const text = await r.text();
        if (r.ok) { done(key, q, text); pause = 1000; } else if (r.status === 400) refused(key, text); else throw new Error(text);
      }
    } catch {
      setTimeout(() => { sending = false; send(); }, pause);
      pause = Math.min(15000, pause * 2);
      say();
      return;
    }
    sending = false;
    say();
  }
  function done(key, q, text) {
    const [, ...remarks] = text.split('\n').filter((l) => l !== '');
    const row = byKey.get(key);
    if (queue[key] === q) delete queue[key];
    write();
    state(row, q.x === '' && q.rotation === '' ? '' : 'kept');
    ask(row, remarks);
    clearTimeout(fitTimer);
    fitTimer = setTimeout(poll, 100);
  }
  function refused(key, text) {
    const row = byKey.get(key);
    delete queue[key];
    write();
    row.dataset.shown = '';
    state(row, 'wrong');
    ask(row, [text]);
  }
  function ask(row, sentences) {
    const old = row.nextElementSibling;
    if (old && old.classList.contains('ask')) old.remove();
    if (sentences.length === 0) return;
    const tr = document.createElement('tr');
    tr.className = 'ask';
    const td = tr.insertCell();
    td.colSpan = 6;
    td.setAttribute('role', 'alert');
    td.textContent = sentences.join(' ');
    row.after(tr);
  }

  // What other pages entered, and the fit
  async function poll() {
    try {
      const r = await fetch(`${base}/entries?since=${sequence}`, { headers: { 'X-Piece': '1' } });
      if (!r.ok) return;
      const [last, ...lines] = (await r.text()).split('\n');
      for (const line of lines.filter((l) => l !== '')) {
        const [, key, dx, dy, turn] = line.split('\t');
        const row = byKey.get(key);
        if (!row) { location.reload(); return; }
        Object.assign(row.dataset, { dx, dy, turn });
        mark(row);
        // a row that somebody is typing in keeps what stands there
        const untouched = texts(row).join('\t') === row.dataset.shown;
        if (untouched || !row.contains(document.activeElement)) {
          show(row);
          if (!queue[key]) state(row, dx === '' ? '' : 'kept');
        }
      }
      if (Number(last) !== sequence) {
        sequence = Number(last);
        await padtrue.piece(`${base}/fit`, document.getElementById('fit'));
        next();
      }
    } catch { /* the next poll tries again */ }
  }

  // Moving
  function mark(row) {
    if (map.light) {
      map.light(row.dataset.key, true, 'planned');
      map.light(row.dataset.key, row.dataset.dx !== '', 'measured');
    }
  }
  function next() {
    const here = rows.find((r) => r.contains(document.activeElement));
    const open = here || rows.find((r) => r.dataset.dx === '');
    const p = document.getElementById('next');
    p.textContent = open ? `${open.querySelector('th').firstChild.textContent.trim()}: x ${open.dataset.x}, y ${open.dataset.y}` : 'The list is done.';
    if (map.ring && open) map.ring(open.dataset.key);
  }
  function step(input, by) {
    const axis = input.dataset.field;
    const size = axis === 'rotation' ? Number(bench.dataset.turnStep) : Number(bench.dataset.step) / MM[unit.value];
    const digits = axis === 'rotation' ? 4 : DIGITS[unit.value];
    const text = input.value.trim().replace(',', '.').replace('−', '-');
    const nominal = as.value === 'pose' ? Number(input.closest('tr').dataset[axis]) / (axis === 'rotation' ? 1 : MM[unit.value]) : 0;
    const now = text === '' ? nominal : Number(text);
    if (Number.isFinite(now)) input.value = String(Number((now + by * size).toFixed(digits)));
  }
  bench.addEventListener('keydown', (e) => {
    const row = e.target.closest('tr[data-key]');
    if (!row || e.target.tagName !== 'INPUT') return;
    const own = inputs(row);
    const k = own.indexOf(e.target);
    if (e.key === 'Enter') {
      e.preventDefault();
      if (k < 2) own[k + 1].focus();
      else {
        keep(row);
        const i = rows.indexOf(row);
        const to = rows[(i + 1) % rows.length];
        inputs(to)[0].focus();
      }
    } else if (e.key === 'ArrowUp' || e.key === 'ArrowDown') {
      e.preventDefault();
      step(e.target, (e.key === 'ArrowUp' ? 1 : -1) * (e.shiftKey ? 10 : 1));
      state(row, 'typed');
    } else if (e.key === 'Escape') {
      show(row);
      state(row, row.dataset.dx === '' ? '' : 'kept');
    }
  });
  bench.addEventListener('input', (e) => {
    const row = e.target.closest('tr[data-key]');
    if (row) state(row, 'typed');
  });
  bench.addEventListener('focusin', (e) => {
    const row = e.target.closest('tr[data-key]');
    rows.forEach((r) => r.classList.toggle('here', r === row));
    if (row) { e.target.select?.(); next(); }
  });
  bench.addEventListener('focusout', (e) => {
    const row = e.target.closest('tr[data-key]');
    if (row && !row.contains(e.relatedTarget)) keep(row);
  });
  for (const choice of [unit, as]) {
    choice.value = localStorage.getItem(`padtrue ${choice.id}`) || choice.value;
    choice.addEventListener('change', () => {
      localStorage.setItem(`padtrue ${choice.id}`, choice.value);
      heads();
      rows.forEach(show);
    });
  }
  map.addEventListener('click', (e) => {
    const g = e.target.closest('[data-place]');
    const row = g && byKey.get(g.dataset.place);
    if (row) inputs(row)[0].focus();
  });

  heads();
  rows.forEach(show);
  for (const [key, q] of Object.entries(queue)) {
    const row = byKey.get(key);
    if (!row) { delete queue[key]; continue; }
    ['x', 'y', 'rotation'].forEach((a) => { field(row, a).value = q[a]; });
    state(row, 'waiting');
  }
  say();
  send();
  const ready = () => { rows.forEach(mark); next(); };
  document.addEventListener('padtrue-maps', ready);
  ready();
  const first = rows.find((r) => r.dataset.dx === '');
  if (first && !location.hash) inputs(first)[0].focus();
  setInterval(poll, 3000);
  window.addEventListener('beforeunload', (e) => { if (Object.keys(queue).length) e.preventDefault(); });
})();
