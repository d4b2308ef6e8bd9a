'use strict';
// Where to look next: the placement and its neighbours, turned and mirrored as the panel lies under the scope.
(() => {
  const bench = document.querySelector('.bench');
  const near = document.getElementById('near');
  const map = bench.querySelector('[data-map]');
  const turn = document.getElementById('turn');
  const mirrored = document.getElementById('mirrored');
  const follow = document.getElementById('follow');
  const drawn = new Map();
  let key = '';

  const way = () => `turn=${turn.value}${mirrored.checked ? '&mirrored=yes' : ''}`;
  async function fetched(k) {
    const url = `/articles/${bench.dataset.article}/near?placement=${encodeURIComponent(k)}&${way()}`;
    if (!drawn.has(url)) {
      const r = await fetch(url, { headers: { 'X-Piece': '1' } });
      if (!r.ok) return '';
      if (drawn.size > 200) drawn.clear();
      drawn.set(url, await r.text());
    }
    return drawn.get(url);
  }
  async function look(k) {
    key = k;
    if (map.ring) map.ring(k);
    if (follow.checked && map.zoomTo) map.zoomTo(k);
    try {
      const html = await fetched(k);
      if (k === key) near.innerHTML = html;
      // the one after it is there before it is asked for
      const row = document.getElementById(`row-${k}`);
      const after = row && [...row.parentElement.querySelectorAll('tr[data-key]')].find((r) => r.compareDocumentPosition(row) & Node.DOCUMENT_POSITION_PRECEDING && r.dataset.dx === '');
      if (after) await fetched(after.dataset.key);
    } catch { /* without the server the list still takes values */ }
  }
  document.addEventListener('padtrue-look', (e) => { if (e.detail !== key) look(e.detail); });

  turn.value = localStorage.getItem('padtrue turn') || '0';
  mirrored.checked = localStorage.getItem('padtrue mirrored') === 'yes';
  follow.checked = localStorage.getItem('padtrue follow') === 'yes';
  const set = () => {
    localStorage.setItem('padtrue turn', turn.value);
    localStorage.setItem('padtrue mirrored', mirrored.checked ? 'yes' : '');
    localStorage.setItem('padtrue follow', follow.checked ? 'yes' : '');
    map.turn(Number(turn.value), mirrored.checked);
    if (key) look(key);
  };
  for (const c of [turn, mirrored, follow]) c.addEventListener('change', set);
  set();
})();
