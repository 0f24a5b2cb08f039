// Says whether the page is heard, how long ago the job was saved, and hands on the keys for undo and redo.
function render({ model, el }) {
  const line = document.createElement('div'); line.className = 'desk-pulse'; line.setAttribute('role', 'status'); el.append(line);
  let heard = Date.now(), asked = 0;
  const kernel = () => { try { const m = model.widget_manager; return m?.kernel ?? m?.context?.sessionContext?.session?.kernel; } catch { return null; } };
  const ago = () => { const at = model.get('saved'); if (!at) return 'Nothing to save yet'; const s = Math.max(0, Math.round(Date.now() / 1000 - at)); return s < 60 ? 'Saved' : s < 3600 ? `Saved ${Math.floor(s / 60)} min ago` : 'Saved'; };
  const show = (state, text) => {
    if (line.dataset.state !== state || line.textContent !== text) { line.dataset.state = state; line.textContent = text; }
    const desk = el.closest('.estimating-desk'); desk?.classList.toggle('desk-off', state === 'off');
    desk?.querySelectorAll('.desk-typing').forEach(each => each.toggleAttribute('inert', state === 'off')); };
  const pong = message => { if (message.pong) { heard = Date.now(); look(false); } };
  const look = (ask = true) => {
    if (document.hidden) { heard = Date.now(); return; }
    const k = kernel(), gone = k && (k.isDisposed || ['dead', 'restarting', 'autorestarting'].includes(k.status) || k.connectionStatus !== 'connected');
    const late = Date.now() - heard > 3500;
    if (gone || (late && k?.status !== 'busy')) {
      show('off', 'NOT CONNECTED. All you typed is saved; press Calculate (F9) or reload the page to go on.');
      dispatchEvent(new CustomEvent('estimating-desk:lost')); // a notebook that opens itself looks whether to run again
    } else show(late ? 'busy' : 'on', late ? 'Working …' : ago());
    if (ask && !gone) try { model.send({ ping: ++asked }); } catch { show('off', 'NOT CONNECTED. Reload the page to go on.'); } };
  const typing = e => e.matches?.('input:not([type]), input[type=text], input[type=number], textarea, [contenteditable=true]');
  const key = e => {
    const desk = el.closest('.estimating-desk'), z = e.key?.toLowerCase();
    if (!desk?.contains(e.target) || !['z', 'y'].includes(z) || (typing(e.target) && !e.altKey)) return;
    if (!(e.ctrlKey || e.metaKey) === !e.altKey) return;
    e.preventDefault(); e.stopImmediatePropagation(); model.send({ do: z === 'y' || e.shiftKey ? 'redo' : 'undo' }); };
  model.on('msg:custom', pong); model.on('change:saved', () => look(false)); document.addEventListener('keydown', key, true);
  const timer = setInterval(look, 1000); look();
  return () => { clearInterval(timer); model.off('msg:custom', pong); document.removeEventListener('keydown', key, true); };
}
export default { render };
