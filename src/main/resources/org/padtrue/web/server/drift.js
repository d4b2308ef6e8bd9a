'use strict';
// One stop of the Tab key for each plot; arrow keys move from article to article, and what a dot
// says is written below it.
for (const plot of document.querySelectorAll('[data-plot]')) {
  const dots = [...plot.querySelectorAll('svg a')];
  const says = plot.querySelector('[data-says]');
  let at = dots.length - 1;
  const say = (a) => { says.textContent = a ? a.querySelector('title').textContent : '\u00a0'; };
  const go = (i) => {
    at = Math.min(dots.length - 1, Math.max(0, i));
    dots.forEach((d, k) => d.setAttribute('tabindex', k === at ? '0' : '-1'));
  };
  go(at);
  say(null);
  dots.forEach((d, i) => {
    d.addEventListener('focus', () => { go(i); say(d); });
    d.addEventListener('pointerenter', () => say(d));
  });
  plot.addEventListener('keydown', (e) => {
    const step = { ArrowRight: 1, ArrowLeft: -1, PageDown: 10, PageUp: -10, Home: -dots.length, End: dots.length }[e.key];
    if (step === undefined || !dots.includes(document.activeElement)) return;
    e.preventDefault();
    go(at + step);
    dots[at].focus();
  });
}
