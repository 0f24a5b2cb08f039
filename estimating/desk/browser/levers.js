// Sliders of the biggest price drivers. In: rows [{key, name, span, value, min, max, step, share, sum}]. Out: moved {key, value}.
function render({ model, el }) {
  const made = new Map();
  const move = (key, value) => { const n = Number(value); if (value === '' || !Number.isFinite(n)) return; model.set('moved', { key, value: n }); model.save_changes(); };
  const build = key => {
    const box = document.createElement('div'); box.className = 'desk-lever'; box.setAttribute('role', 'group');
    box.innerHTML = '<div class="lever-head"><span class="lever-name"></span><span class="lever-sum"></span></div><div class="lever-set"><input type="range"><input type="number" step="any"><span class="lever-bar"><span></span></span></div><div class="lever-span"></div>';
    const [slide, number] = box.querySelectorAll('input');
    slide.oninput = () => { number.value = Number(Number(slide.value).toPrecision(6)); move(key, number.value); };
    number.onchange = () => { slide.value = number.value; move(key, number.value); };
    box.addEventListener('keydown', e => { if (e.key !== 'F9' && !e.ctrlKey && !e.metaKey && !e.altKey) e.stopPropagation(); });
    return box; };
  const draw = () => {
    const boxes = model.get('rows').map(r => {
      const box = made.get(r.key) ?? build(r.key); made.set(r.key, box);
      const [slide, number] = box.querySelectorAll('input'), held = box.contains(document.activeElement);
      if (!held) { slide.min = r.min; slide.max = r.max; slide.step = r.step; slide.value = r.value; number.value = r.value; }
      slide.setAttribute('aria-label', r.name); number.setAttribute('aria-label', `${r.name}, typed`); box.setAttribute('aria-label', r.name);
      box.querySelector('.lever-name').textContent = r.name; box.querySelector('.lever-sum').textContent = r.sum; box.querySelector('.lever-span').textContent = r.span;
      box.querySelector('.lever-bar span').style.width = `${r.share}%`; return box; });
    if (boxes.length !== el.children.length || boxes.some((b, i) => el.children[i] !== b)) { const had = document.activeElement; el.replaceChildren(...boxes); if (el.contains(had)) had.focus(); } };
  model.on('change:rows', draw); draw(); return () => model.off('change:rows', draw);
}
export default { render };
