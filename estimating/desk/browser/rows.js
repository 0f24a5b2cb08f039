// A table of words with buttons in each line. In: head, rows [{id, cells, actions}], caption. Out: {row, do} for a press.
function render({ model, el }) {
  const draw = () => {
    const table = document.createElement('table'); table.className = 'desk-rows';
    const line = (place, tag, cells) => { const tr = place.insertRow(); cells.forEach((text, i) => { const c = document.createElement(i || tag === 'th' ? tag : 'th'); if (tag === 'th') c.scope = 'col'; else if (!i) c.scope = 'row'; c.textContent = text; c.dataset.name = model.get('head')[i] ?? ''; tr.append(c); }); return tr; };
    if (model.get('caption')) table.createCaption().textContent = model.get('caption');
    line(table.createTHead(), 'th', model.get('head')); const body = table.createTBody();
    for (const r of model.get('rows')) {
      const cell = line(body, 'td', r.cells).insertCell(); cell.className = 'desk-acts';
      for (const word of r.actions) {
        const b = document.createElement('button'); b.type = 'button'; b.className = 'jupyter-button'; b.textContent = word;
        b.setAttribute('aria-label', `${word}: ${r.called ?? r.cells[0]}`); b.onclick = () => model.send({ row: r.id, do: word }); cell.append(b); } }
    if (model.get('rows').length) table.tHead.rows[0].append(document.createElement('td'));
    el.replaceChildren(table); };
  model.on('change:rows', draw); draw(); return () => model.off('change:rows', draw);
}
export default { render };
