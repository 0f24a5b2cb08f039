// What is cut off, runs off the page or lies on something else in the desk, in words.
() => {
  const desk = document.querySelector('.estimating-desk'), faults = [], boxes = [], bar = desk.querySelector('.desk-bar');
  const named = e => (e.textContent.trim() || e.getAttribute('aria-label') || e.value || e.tagName).slice(0, 40);
  const where = e => `${e.tagName.toLowerCase()}.${String(e.getAttribute('class') ?? '').split(' ').join('.')}`;
  const scrolls = e => /auto|scroll/.test(getComputedStyle(e).overflowX);
  const inScroller = e => { for (let up = e; up && up !== desk; up = up.parentElement) if (scrolls(up)) return true; return false; };
  const read = e => e.matches('button, input, select, textarea');
  for (const e of desk.querySelectorAll('*')) {
    if (!e.checkVisibility({ checkOpacity: true, checkVisibilityCSS: true }) || e.closest('style, script, option, .sr-only')) continue;
    const own = [...e.childNodes].filter(n => n.nodeType === 3 && n.textContent.trim());
    if (!own.length && !read(e)) continue;
    const style = getComputedStyle(e), hides = /hidden|clip/.test(style.overflowX), typed = e.matches('input:not([type=range]), textarea');
    if ((hides || typed || e.tagName === 'BUTTON') && e.scrollWidth > e.clientWidth + 1 && !(typed && !e.value)) faults.push(`cut off: ${named(e)} (${where(e)}, ${e.scrollWidth} > ${e.clientWidth})`);
    if (e.tagName === 'TEXTAREA' && e.closest('.rg') && e.scrollHeight > e.clientHeight + 1) faults.push(`cut off below: ${e.value.slice(0, 40)}`);
    if (!read(e) && hides && e.scrollHeight > e.clientHeight + 2) faults.push(`cut off below: ${named(e)} (${where(e)})`);
    let rects;
    if (read(e)) rects = [e.getBoundingClientRect()];
    else rects = own.flatMap(n => { const r = document.createRange(); r.selectNodeContents(n); return [...r.getClientRects()]; });
    for (const r of rects) {
      if (r.width < 1 || r.height < 1) continue;
      if (r.right > innerWidth + 1 && !inScroller(e)) faults.push(`off the page: ${named(e)} (${where(e)})`);
      if (!inScroller(e)) boxes.push([e, r]); }
  }
  boxes.sort((a, b) => a[1].top - b[1].top);
  for (let i = 0; i < boxes.length; i++) for (let j = i + 1; j < boxes.length; j++) {
    const [a, p] = boxes[i], [b, q] = boxes[j];
    if (q.top > p.bottom) break;
    if (a === b || a.contains(b) || b.contains(a) || (bar?.contains(a) !== bar?.contains(b))) continue;
    const wide = Math.min(p.right, q.right) - Math.max(p.left, q.left), high = Math.min(p.bottom, q.bottom) - Math.max(p.top, q.top);
    if (wide > 2 && high > 3) faults.push(`on each other: ${named(a)} (${where(a)}) and ${named(b)} (${where(b)})`); }
  return [...new Set(faults)];
}
