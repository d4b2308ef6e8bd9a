'use strict';
// What was typed and is not on disk yet. Kept in this browser, sent until the server says that it is on disk;
// what is half typed, refused or in dispute is kept as well. Each row keeps the unit in which it was typed.
// States of a draft: typing, waiting, wrong, clash.
padtrue.entries = (article) => {
  const place = `padtrue ${article}`;
  let drafts = read();
  let sending = false;
  let pause = 1000;
  let trouble = '';
  let ended = false;
  const on = { saved() {}, clash() {}, wrong() {}, change() {} };

  function read() {
    let kept = {};
    try { kept = JSON.parse(localStorage.getItem(place)) || {}; } catch { /* nothing kept */ }
    for (const d of Object.values(kept)) d.state = d.state || 'waiting';
    return kept;
  }
  function write() {
    try { localStorage.setItem(place, JSON.stringify(drafts)); } catch { /* this page still has it */ }
    on.change();
  }
  function put(key, draft) { drafts[key] = draft; write(); }
  function drop(key) { if (drafts[key]) { delete drafts[key]; write(); } }

  const missing = (d) => {
    if (d.x === '' && d.y === '' && d.rotation === '') return '';
    // a fault in place of numbers: the server knows the words
    if ([d.x, d.y, d.rotation].some((t) => /^[a-z]{3}/i.test(t))) return '';
    if (d.x === '' && d.y === '') return 'x and y are missing';
    return d.x === '' ? 'x is missing' : d.y === '' ? 'y is missing' : '';
  };
  const waiting = () => Object.keys(drafts).find((k) => drafts[k].state === 'waiting');

  async function send() {
    if (sending || ended) return;
    sending = true;
    try {
      for (let key = waiting(); key; key = waiting()) {
        const d = drafts[key];
        const fields = { placement: key, x: d.x, y: d.y, rotation: d.rotation, unit: d.unit, as: d.as, seen: d.seen };
        for (const f of d.same || []) fields[f] = '=';
        const r = await padtrue.post(`/articles/${article}/entries`, fields);
        const text = await r.text();
        if (r.status === 401) { ended = true; break; }
        const mine = drafts[key] === d;
        if (r.ok) {
          if (mine) delete drafts[key];
          const a = answer(text);
          if (!mine && drafts[key]) drafts[key].seen = a.stands;
          write();
          on.saved(key, a, mine);
        } else if (r.status === 409) {
          const a = answer(text);
          Object.assign(drafts[key] || {}, { state: 'clash', said: a.said, stands: a.stands });
          write();
          on.clash(key, a);
        } else if (r.status === 400 || r.status === 404) {
          if (mine) Object.assign(d, { state: 'wrong', said: text });
          write();
          on.wrong(key, text);
        } else {
          throw new Error(text.length < 300 ? text : '');
        }
        pause = 1000;
        trouble = '';
      }
    } catch (e) {
      // a failed fetch has words of the browser's own
      trouble = e instanceof TypeError || !e.message ? 'The server does not answer.' : e.message;
      setTimeout(() => { sending = false; send(); }, pause);
      pause = Math.min(15000, pause * 2);
      on.change();
      return;
    }
    sending = false;
    on.change();
  }
  function answer(text) {
    const [first, ...said] = text.split('\n');
    const [, stands, dx, dy, turn, fault] = first.split('\t');
    return { stands: Number(stands), dx, dy, turn, fault, said: said.join(' ').trim() };
  }

  return {
    on,
    put,
    drop,
    send,
    missing,
    of: (key) => drafts[key],
    all: () => Object.entries(drafts),
    trouble: () => trouble,
    ended: () => ended,
  };
};
