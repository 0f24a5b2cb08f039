// A table of words with buttons in each line. In: head, rows [{id, cells, actions}], caption, nothing. Out: {row, do} for a press.
function render({ model, el }) {
  const make = (tag, more = {}) => Object.assign(document.createElement(tag), more);
  const button = (r, word) => {
    const b = make('button', { type: 'button', className: 'jupyter-button', textContent: word });
    b.setAttribute('aria-label', `${word}: ${r.called ?? r.cells[0]}`); b.dataset.row = r.id;
    b.onclick = () => model.send({ row: r.id, do: word }); return b; };
  const draw = () => {
    const table = make('table', { className: 'desk-rows' }), held = el.contains(document.activeElement) ? document.activeElement : null;
    const rows = model.get('rows'), head = model.get('head');
    if (model.get('caption')) table.createCaption().textContent = model.get('caption');
    if (rows.length) {
      const top = table.createTHead().insertRow(); head.forEach(text => top.append(make('th', { scope: 'col', textContent: text })));
      top.append(document.createElement('td')); }
    const body = table.createTBody();
    for (const r of rows) {
      const tr = body.insertRow();
      r.cells.forEach((text, i) => { const c = make(i ? 'td' : 'th', { textContent: text }); if (!i) c.scope = 'row'; c.dataset.name = head[i] ?? ''; tr.append(c); });
      const acts = make('div', { className: 'desk-acts' }); acts.append(...r.actions.map(word => button(r, word)));
      const cell = tr.insertCell(); cell.className = 'rows-acts'; cell.append(acts); }
    el.replaceChildren(table);
    if (!rows.length && model.get('nothing')) el.append(make('p', { className: 'pe-small', textContent: model.get('nothing') }));
    if (held) ([...el.querySelectorAll('button')].find(b => b.dataset.row === held.dataset.row && b.textContent === held.textContent) ?? el.querySelector('button'))?.focus(); };
  model.on('change:rows', draw); draw(); return () => model.off('change:rows', draw);
}
export default { render };
