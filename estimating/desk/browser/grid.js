// A table of labelled inputs, a line a row. In: cols, rows, foot, chosen. Out: one message a change; Python answers with rows.
function render({ model, el }) {
  const make = (tag, more = {}) => Object.assign(document.createElement(tag), more);
  const table = make('table', { className: 'rg' }), said = make('div', { className: 'rg-said' });
  const notes = make('textarea', { rows: 1, placeholder: model.get('hint') });
  const add = make('button', { type: 'button', className: 'jupyter-button', textContent: 'Add' });
  const entry = make('div', { className: 'rg-entry' });
  said.setAttribute('role', 'status'); notes.setAttribute('aria-label', model.get('entry'));
  table.createCaption().textContent = model.get('label');
  const head = table.createTHead().insertRow(), body = table.createTBody(), foot = table.createTFoot().insertRow();
  entry.append(notes, add); el.append(table, entry, said); entry.hidden = !model.get('entry');
  const cols = model.get('cols'), rows = () => model.get('rows'), send = what => model.send(what);
  for (const c of cols) head.append(Object.assign(make('th', { scope: 'col', textContent: c.name, className: c.kind })));
  const cell = c => {
    if (c.kind === 'read') return make('span');
    if (c.kind === 'text') return make('textarea', { rows: 1, spellcheck: false });
    return make('input', { type: 'text', autocomplete: 'off', spellcheck: false }); };
  const fit = () => { for (const e of body.querySelectorAll('textarea')) { e.style.height = '0'; e.style.height = `${e.scrollHeight}px`; } };
  function draw() {
    const list = rows(), chosen = model.get('chosen');
    while (body.rows.length > list.length) body.deleteRow(-1);
    list.forEach((r, i) => {
      let tr = body.rows[i];
      if (!tr) { tr = body.insertRow(); for (const c of cols) { const td = tr.insertCell(); td.className = c.kind; td.dataset.name = c.name; td.append(cell(c)); } }
      const name = r.cells[cols[0].id] || `row ${i + 1}`;
      if (r.id === chosen) tr.setAttribute('aria-current', 'true'); else tr.removeAttribute('aria-current');
      tr.dataset.id = r.id;
      cols.forEach((c, j) => {
        const e = tr.cells[j].firstChild, text = String(r.cells[c.id] ?? ''), bad = r.bad?.[c.id] ?? '';
        if (c.kind === 'read') { e.textContent = text; return; }
        e.setAttribute('aria-label', `${c.name}, ${name}`); e.placeholder = r.hints?.[c.id] ?? '';
        if (e.was !== text || !e.matches(':focus')) { e.value = text; e.was = text; }
        e.toggleAttribute('aria-invalid', false); if (bad) e.setAttribute('aria-invalid', 'true'); e.title = bad; });
    });
    foot.replaceChildren(...model.get('foot').map((text, j, all) => make('td', { textContent: text, colSpan: j ? 1 : cols.length - all.length + 1, className: j ? 'read' : '' })));
    table.hidden = !list.length; fit();
  }
  const place = e => [e.closest('tr').sectionRowIndex, e.closest('td').cellIndex];
  const keep = e => { if (e.value === e.was) return; const [r, c] = place(e); e.was = e.value; send({ do: 'set', row: rows()[r].id, col: cols[c].id, value: e.value }); };
  const go = (r, c) => { const e = body.rows[Math.min(Math.max(r, 0), body.rows.length - 1)]?.cells[c]?.firstChild; e?.focus(); e?.select?.(); };
  body.addEventListener('focusin', e => { const id = e.target.closest('tr')?.dataset.id; if (id && id !== model.get('chosen')) { model.set('chosen', id); model.save_changes(); draw(); } });
  body.addEventListener('change', e => keep(e.target));
  body.addEventListener('keydown', e => {
    if (!e.target.matches('input, textarea')) return;
    if (e.altKey && /^Arrow(Up|Down)$/.test(e.key)) { e.preventDefault(); keep(e.target); const [r, c] = place(e.target), by = e.key === 'ArrowUp' ? -1 : 1; if (rows()[r + by]) { send({ do: 'move', row: rows()[r].id, by }); go(r + by, c); } return; }
    const step = { Enter: e.shiftKey ? -1 : 1, ArrowDown: 1, ArrowUp: -1 }[e.key];
    if (step) { e.preventDefault(); keep(e.target); const [r, c] = place(e.target); go(r + step, c); }
    if (e.key === 'Escape') e.target.value = e.target.was; });
  body.addEventListener('paste', e => {
    const text = e.clipboardData.getData('text/plain'); if (!/[\n\t]/.test(text.trim())) return;
    e.preventDefault(); const [r, c] = place(e.target); send({ do: 'paste', row: rows()[r].id, col: cols[c].id, text }); });
  const enter = text => { if (text.trim()) { notes.value = ''; send({ do: 'lines', text }); } };
  add.onclick = () => enter(notes.value);
  notes.addEventListener('keydown', e => { if (e.key === 'Enter' && !e.shiftKey) { e.preventDefault(); enter(notes.value); } });
  notes.addEventListener('paste', e => { const text = e.clipboardData.getData('text/plain'); if (/\n/.test(text.trim())) { e.preventDefault(); enter(text); } });
  el.addEventListener('keydown', e => { if (e.key !== 'F9' && !e.ctrlKey && !e.metaKey && !e.altKey) e.stopPropagation(); });
  const heard = m => { if ('said' in m) said.textContent = m.said; if ('back' in m) { notes.value = m.back; notes.rows = Math.min(6, m.back.split('\n').length); } };
  const width = new ResizeObserver(fit); width.observe(el); body.addEventListener('input', fit);
  model.on('msg:custom', heard); model.on('change:rows change:foot change:chosen', draw); draw();
  return () => { width.disconnect(); model.off('msg:custom', heard); model.off('change:rows change:foot change:chosen', draw); };
}
export default { render };
