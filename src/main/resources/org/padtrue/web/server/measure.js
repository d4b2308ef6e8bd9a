'use strict';
// Typing measurements: keyboard alone, every entry on disk before the page says so.
(() => {
  const bench = document.querySelector('.bench');
  const article = bench.dataset.article;
  const base = `/articles/${article}`;
  const store = padtrue.entries(article);
  const body = bench.querySelector('.rows tbody');
  const unit = document.getElementById('unit');
  const as = document.getElementById('as');
  const saved = document.getElementById('saved');
  const end = document.getElementById('end');
  const map = bench.querySelector('[data-map]');
  const MM = { mm: 1, um: 0.001, mil: 0.0254 };
  const NAME = { mm: 'mm', um: 'µm', mil: 'mil' };
  const DIGITS = { mm: 4, um: 1, mil: 3 };
  const AXES = ['x', 'y', 'rotation'];
  const SO = new Set();
  let rows = [];
  let byKey = new Map();
  let sequence = Number(bench.dataset.sequence);
  let last = null;
  let busy = null;

  function gather() {
    rows = [...body.querySelectorAll('tr[data-key]')];
    byKey = new Map(rows.map((r) => [r.dataset.key, r]));
  }
  const inputs = (row) => AXES.map((a) => row.querySelector(`[data-field="${a}"]`));
  const texts = (row) => inputs(row).map((i) => i.value.trim());
  const done = (row) => row.dataset.dx !== '' || row.dataset.fault !== '';
  const unitOf = (row) => store.of(row.dataset.key)?.unit || unit.value;
  const asOf = (row) => store.of(row.dataset.key)?.as || as.value;

  // Numbers as they are shown: in a unit, as deviation or as measured position.
  function shown(row, axis, u = unit.value, way = as.value) {
    if (row.dataset.fault) return axis === 'x' ? row.dataset.fault : '';
    const d = row.dataset[axis === 'rotation' ? 'turn' : `d${axis}`];
    if (d === '') return '';
    const nominal = way === 'pose' ? Number(row.dataset[axis]) : 0;
    const v = axis === 'rotation' ? Number(d) + nominal : (Number(d) + nominal) / MM[u];
    return String(Number(v.toFixed(axis === 'rotation' ? 4 : DIGITS[u])));
  }
  const shownAll = (row) => AXES.map((a) => shown(row, a, unitOf(row), asOf(row)));
  // What stands on disk, or the draft with the unit it was typed in.
  function show(row) {
    const d = store.of(row.dataset.key);
    const t = d ? AXES.map((a) => d[a]) : shownAll(row);
    inputs(row).forEach((i, k) => { if (i.value !== t[k]) i.value = t[k]; });
    state(row);
  }
  function state(row) {
    const d = store.of(row.dataset.key);
    const cell = row.querySelector('.state');
    const own = d && (d.unit !== unit.value || d.as !== as.value)
      ? ` (typed in ${NAME[d.unit]}${d.as === 'pose' ? ', as measured x, y' : ''})` : '';
    const kept = done(row);
    const [name, words] = !d ? (kept ? ['kept', '✓ on disk'] : ['', ''])
      : d.state === 'waiting' ? ['waiting', '⟳ not yet on disk']
      : d.state === 'wrong' ? ['wrong', '✗ not taken, not on disk']
      : d.state === 'clash' ? ['clash', '✗ not stored: choose']
      : store.missing(d) && row !== busy ? ['missing', `not stored: ${store.missing(d)}`]
      : ['typed', 'typed, not yet stored'];
    cell.dataset.state = name;
    cell.textContent = words + (name === '' ? '' : own);
  }

  function heads() {
    const pose = as.value === 'pose';
    const u = NAME[unit.value];
    const words = { x: `${pose ? 'x' : 'dx'}, ${u}`, y: `${pose ? 'y' : 'dy'}, ${u}`, rotation: `${pose ? 'rotation' : 'd rotation'}, °` };
    for (const a of AXES) {
      bench.querySelector(`[data-head="${a}"]`).textContent = words[a];
      rows.forEach((r) => { r.querySelector(`[data-field="${a}"]`).parentElement.dataset.label = words[a]; });
    }
  }

  // Saving
  function typed(row) {
    const key = row.dataset.key;
    const t = texts(row);
    const d = store.of(key);
    const u = d?.unit || unit.value;
    const way = d?.as || as.value;
    const was = AXES.map((a) => shown(row, a, u, way));
    if (t.join('\t') === was.join('\t')) {
      store.drop(key);
    } else {
      const same = row.dataset.fault ? [] : AXES.filter((a, k) => t[k] === was[k] && t[k] !== '');
      store.put(key, { x: t[0], y: t[1], rotation: t[2], unit: u, as: way, same, seen: d ? d.seen : Number(row.dataset.stands), state: 'typing' });
    }
    ask(row, '', []);
    state(row);
  }
  function keep(row) {
    const d = store.of(row.dataset.key);
    if (d && d.state === 'typing' && !store.missing(d)) {
      store.put(row.dataset.key, { ...d, state: 'waiting' });
      store.send();
    }
    state(row);
  }
  function say() {
    const all = store.all().filter(([k]) => byKey.has(k));
    const name = ([k, d]) => {
      const why = store.missing(d) || { typing: 'being typed', waiting: 'being sent', wrong: 'not taken', clash: 'another page entered something else' }[d.state];
      return `${byKey.get(k).dataset.ref} (${why})`;
    };
    saved.classList.toggle('not', all.length > 0);
    if (store.ended()) {
      const at = rows.find((r) => r.contains(document.activeElement)) || last;
      const back = location.pathname + (at ? `#${at.id}` : '');
      const a = document.createElement('a');
      a.href = `/enter?to=${encodeURIComponent(back)}`;
      a.textContent = 'Sign in again';
      saved.replaceChildren('Your session has ended. ', a, all.length ? `; ${all.length === 1 ? '1 row is' : `${all.length} rows are`} kept in this browser until then.` : '.');
    } else if (all.length === 0) {
      saved.textContent = store.trouble() ? store.trouble() : 'Everything typed is on disk.';
    } else {
      saved.textContent = `${all.length} not yet on disk: ${all.slice(0, 3).map(name).join(', ')}${all.length > 3 ? ' …' : ''}. ${store.trouble()} Kept in this browser.`.replace('  ', ' ');
    }
  }
  store.on.change = say;
  store.on.saved = (key, a, mine) => {
    const row = byKey.get(key);
    if (!row) return;
    stand(row, a);
    if (mine) {
      show(row);
      ask(row, a.said ? 'remark' : '', a.said ? [a.said] : []);
    }
    mark(row);
    soon();
  };
  store.on.wrong = (key, text) => {
    const row = byKey.get(key);
    if (!row) return;
    ask(row, 'wrong', [text]);
    state(row);
  };
  store.on.clash = (key, a) => {
    const row = byKey.get(key);
    if (!row) return;
    stand(row, a);
    state(row);
    dispute(row, a.said, a.stands);
  };
  function dispute(row, said, stands) {
    const key = row.dataset.key;
    const mine = () => {
      store.put(key, { ...store.of(key), seen: stands, same: [], state: 'waiting' });
      ask(row, '', []);
      state(row);
      store.send();
    };
    const theirs = () => {
      store.drop(key);
      ask(row, '', []);
      show(row);
    };
    ask(row, 'clash', [said], [['Store mine', mine], ['Keep theirs', theirs]]);
  }
  function stand(row, a) {
    Object.assign(row.dataset, { dx: a.dx, dy: a.dy, turn: a.turn, fault: a.fault || '', stands: a.stands });
  }

  // A sentence under a row; what a person must answer is not pushed aside by what is only asked.
  function ask(row, kind, sentences, buttons = []) {
    const old = row.nextElementSibling;
    if (old && old.classList.contains('ask')) {
      if (kind === 'asked' && old.dataset.kind !== 'asked') return;
      old.remove();
    }
    if (sentences.length === 0) return;
    const tr = document.createElement('tr');
    tr.className = 'ask';
    tr.dataset.kind = kind;
    const td = tr.insertCell();
    td.colSpan = 6;
    td.setAttribute('role', 'alert');
    td.textContent = `${sentences.join(' ')} `;
    for (const [words, act] of buttons) {
      const b = document.createElement('button');
      b.type = 'button';
      b.textContent = words;
      b.addEventListener('click', act);
      td.append(b, ' ');
    }
    row.after(tr);
  }

  // What other pages entered
  const words = (dx, dy, turn, fault) => (fault ? fault : dx === '' ? 'nothing' : `dx ${dx}, dy ${dy} mm${turn === '' ? '' : `, rotation ${turn}°`}`);
  async function poll() {
    try {
      const r = await fetch(`${base}/entries?since=${sequence}`, { headers: { 'X-Piece': '1' } });
      if (!r.ok) return;
      const [newest, ...lines] = (await r.text()).split('\n');
      const added = [];
      for (const line of lines.filter((l) => l !== '')) {
        const [n, key, dx, dy, turn, kind, fault] = line.split('\t');
        const row = byKey.get(key);
        if (!row) { added.push(key); continue; }
        if (kind !== 'entered' || Number(n) <= Number(row.dataset.stands)) continue;
        const d = store.of(key);
        if (d && d.state === 'waiting') continue;
        const was = words(row.dataset.dx, row.dataset.dy, row.dataset.turn, row.dataset.fault);
        const now = words(dx, dy, turn, fault);
        stand(row, { dx, dy, turn, fault, stands: n });
        mark(row);
        if (d) {
          if (d.state === 'typing') ask(row, 'news', [`Another page entered ${now} here; what you type is not stored yet.`]);
        } else {
          show(row);
          if (was !== 'nothing' && was !== now) ask(row, 'news', [`Another page changed this from ${was} to ${now}.`]);
        }
      }
      if (added.length) await add(added);
      if (Number(newest) !== sequence) {
        sequence = Number(newest);
        soon();
        next();
      }
    } catch { /* the next poll tries again */ }
  }
  async function add(keys) {
    const q = keys.map((k) => `key=${encodeURIComponent(k)}`).join('&');
    const r = await fetch(`${base}/rows?${q}`, { headers: { 'X-Piece': '1' } });
    if (!r.ok) return;
    body.insertAdjacentHTML('beforeend', await r.text());
    gather();
    heads();
    keys.forEach((k) => { const row = byKey.get(k); if (row) { show(row); mark(row); } });
    const p = document.getElementById('news');
    p.textContent = `Another page added to the list: ${keys.map((k) => byKey.get(k)?.dataset.ref).filter(Boolean).join(', ')}.`;
    p.hidden = false;
  }

  // The fit as far as it has come; asked for again until it knows all that is on disk
  let fitTimer = 0;
  function soon(wait = 150) {
    clearTimeout(fitTimer);
    fitTimer = setTimeout(refit, wait);
  }
  async function refit() {
    const box = document.getElementById('fit');
    try {
      if (!await padtrue.piece(`${base}/fit`, box)) return;
    } catch { return; }
    const fit = box.querySelector('.fit');
    if (fit.dataset.current === 'no') soon(900);
    const asked = new Map();
    for (const li of fit.querySelectorAll('[data-asked]')) asked.set(li.dataset.asked, li.textContent);
    for (const row of rows) {
      const key = row.dataset.key;
      const s = asked.get(key);
      const old = row.nextElementSibling;
      if (s && !SO.has(key + s) && !store.of(key)) {
        ask(row, 'asked', [s], [['It is so', () => { SO.add(key + s); ask(row, '', []); }]]);
      } else if (!s && old && old.dataset.kind === 'asked') {
        old.remove();
      }
    }
  }

  // Moving
  const panelOf = (key) => key.split('/', 1)[0];
  let shownPanel = '';
  // The map shows one panel: the one in work.
  function mark(row) {
    if (map.light && (shownPanel === '' || panelOf(row.dataset.key) === shownPanel)) {
      map.light(row.dataset.key, true, 'planned');
      map.light(row.dataset.key, done(row), 'measured');
    }
  }
  function next() {
    const here = rows.find((r) => r.contains(document.activeElement));
    const open = here || rows.find((r) => !done(r) && !store.of(r.dataset.key));
    const p = document.getElementById('next');
    p.textContent = open ? `${open.dataset.ref}: x ${open.dataset.x}, y ${open.dataset.y} mm` : rows.length ? 'The list is done.' : 'Nothing is on the list.';
    if (open && panelOf(open.dataset.key) !== shownPanel) {
      shownPanel = panelOf(open.dataset.key);
      rows.forEach(mark);
    }
    if (open) document.dispatchEvent(new CustomEvent('padtrue-look', { detail: open.dataset.key }));
  }
  function finish() {
    const open = rows.filter((r) => !done(r) && !store.of(r.dataset.key)).map((r) => r.dataset.ref);
    end.textContent = open.length === 0 ? 'The list is done.'
      : `End of the list. Not measured: ${open.slice(0, 8).join(', ')}${open.length > 8 ? ` and ${open.length - 8} more` : ''}.`;
    end.hidden = false;
    end.focus();
  }
  function step(input, by) {
    const row = input.closest('tr');
    const axis = input.dataset.field;
    const u = unitOf(row);
    const size = axis === 'rotation' ? Number(bench.dataset.turnStep) : Number(bench.dataset.step) / MM[u];
    const digits = axis === 'rotation' ? 4 : DIGITS[u];
    const text = input.value.trim().replace(',', '.').replace('−', '-');
    const nominal = asOf(row) === 'pose' ? Number(row.dataset[axis]) / (axis === 'rotation' ? 1 : MM[u]) : 0;
    const now = text === '' ? nominal : Number(text);
    if (Number.isFinite(now)) input.value = String(Number((now + by * size).toFixed(digits)));
    typed(row);
  }
  function go(input) {
    const row = input.closest('tr');
    const own = inputs(row);
    const k = own.indexOf(input);
    if (k < 2) { own[k + 1].focus(); return; }
    keep(row);
    const to = rows[rows.indexOf(row) + 1];
    if (to) inputs(to)[0].focus(); else finish();
  }
  // A read-out that sends both axes at once fills both fields.
  function both(input) {
    const m = /^\s*x\s*[:=]?\s*(.+?)[\s;,]+y\s*[:=]?\s*(.+)$/i.exec(input.value);
    if (!m || input.dataset.field !== 'x') return;
    const own = inputs(input.closest('tr'));
    own[0].value = m[1].replace(/[;,]$/, '');
    own[1].value = m[2];
  }
  bench.addEventListener('keydown', (e) => {
    if (e.altKey && e.key.toLowerCase() === 'u') {
      e.preventDefault();
      unit.focus();
      return;
    }
    const row = e.target.closest('tr[data-key]');
    if (e.target === unit && e.key === 'Enter' && last) {
      e.preventDefault();
      inputs(last)[0].focus();
    }
    if (!row || e.target.tagName !== 'INPUT') return;
    if (e.key === 'Enter') {
      e.preventDefault();
      both(e.target);
      typed(row);
      go(e.target);
    } else if (e.key === 'ArrowUp' || e.key === 'ArrowDown') {
      e.preventDefault();
      step(e.target, (e.key === 'ArrowUp' ? 1 : -1) * (e.shiftKey ? 10 : 1));
    } else if (e.key === 'Escape') {
      store.drop(row.dataset.key);
      ask(row, '', []);
      show(row);
    }
  });
  bench.addEventListener('input', (e) => {
    const row = e.target.closest('tr[data-key]');
    if (row) { busy = row; typed(row); }
  });
  bench.addEventListener('focusin', (e) => {
    const row = e.target.closest('tr[data-key]');
    rows.forEach((r) => r.classList.toggle('here', r === row));
    if (!row) return;
    last = row;
    end.hidden = true;
    e.target.select?.();
    state(row);
    next();
  });
  bench.addEventListener('focusout', (e) => {
    const row = e.target.closest('tr[data-key]');
    if (row && !row.contains(e.relatedTarget)) { busy = null; keep(row); }
  });
  // Keys for fingers: a phone's number pad has no minus
  bench.querySelector('.pad').addEventListener('pointerdown', (e) => e.preventDefault());
  bench.querySelector('.pad').addEventListener('click', (e) => {
    const b = e.target.closest('[data-pad]');
    let input = document.activeElement;
    if (!b) return;
    if (!input || !input.dataset.field) {
      input = inputs(last || rows[0])[0];
      input.focus();
    }
    if (b.dataset.pad === 'next') { go(input); return; }
    if (b.dataset.pad === 'up' || b.dataset.pad === 'down') { step(input, b.dataset.pad === 'up' ? 1 : -1); return; }
    const t = input.value.trim();
    input.value = /^[-−]/.test(t) ? t.slice(1) : `-${t.replace(/^\+/, '')}`;
    typed(input.closest('tr'));
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
    const row = g && byKey.get(g.dataset.place.replace(/^[^/]*/, shownPanel || 'P1'));
    if (row) inputs(row)[0].focus();
  });

  gather();
  heads();
  rows.forEach(show);
  for (const [key, d] of store.all()) {
    const row = byKey.get(key);
    if (!row) continue;
    if (d.state === 'wrong') ask(row, 'wrong', [d.said]);
    if (d.state === 'clash') dispute(row, d.said, d.stands);
    if (d.state === 'typing' && !store.missing(d)) keep(row);
  }
  say();
  store.send();
  const ready = () => { rows.forEach(mark); next(); };
  document.addEventListener('padtrue-maps', ready);
  ready();
  const target = location.hash.startsWith('#row-') && byKey.get(decodeURIComponent(location.hash.slice(5)));
  const first = target || rows.find((r) => !done(r));
  if (first && (target || !location.hash)) inputs(first)[0].focus();
  if (bench.querySelector('.fit').dataset.current === 'no') soon(300);
  const bar = bench.querySelector('.bar');
  const guide = bench.querySelector('.guide');
  const heights = () => {
    bench.style.setProperty('--bar', `${bar.offsetHeight}px`);
    bench.style.setProperty('--guide', `${guide.offsetHeight}px`);
  };
  new ResizeObserver(heights).observe(bar);
  new ResizeObserver(heights).observe(guide);
  setInterval(poll, 3000);
  window.addEventListener('beforeunload', (e) => { if (store.all().length && !store.ended()) e.preventDefault(); });
})();
