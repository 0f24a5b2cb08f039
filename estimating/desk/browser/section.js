// The heading of a part of the form: a button that says whether the box after it is open, and opens it.
function render({ model, el }) {
  const heading = document.createElement('h3'), button = document.createElement('button');
  button.type = 'button'; button.className = 'desk-section'; heading.append(button); el.append(heading);
  const draw = () => {
    const open = model.get('shown'), box = el.closest('.lm-Widget, .p-Widget')?.nextElementSibling;
    button.textContent = model.get('title'); button.setAttribute('aria-expanded', String(open));
    button.dataset.note = model.get('note');
    if (box) { box.id ||= `part-${Math.random().toString(36).slice(2)}`; button.setAttribute('aria-controls', box.id); box.classList.toggle('desk-folded', !open); }
  };
  button.onclick = () => { model.set('shown', !model.get('shown')); model.save_changes(); };
  model.on('change', draw); draw(); requestAnimationFrame(draw); const later = setTimeout(draw, 150);
  return () => { clearTimeout(later); model.off('change', draw); };
}
export default { render };
