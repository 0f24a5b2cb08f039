// Buttons that ask for a file; it is made when asked for, and saved as a download.
function render({ model, el }) {
  el.classList.add('desk-files');
  const draw = () => el.replaceChildren(...model.get('offered').map(([id, name]) => {
    const button = Object.assign(document.createElement('button'), { type: 'button', className: 'jupyter-button', textContent: name });
    button.onclick = () => { button.setAttribute('aria-busy', 'true'); model.send({ make: id }); };
    button.dataset.id = id; return button; }));
  const came = (message, buffers) => {
    el.querySelector(`[data-id="${message.id}"]`)?.removeAttribute('aria-busy');
    if (!message.name) return;
    const url = URL.createObjectURL(new Blob([buffers[0]], { type: message.kind }));
    const link = Object.assign(document.createElement('a'), { href: url, download: message.name });
    document.body.append(link); link.click(); link.remove(); setTimeout(() => URL.revokeObjectURL(url), 60000);
  };
  model.on('msg:custom', came); model.on('change:offered', draw); draw();
  return () => { model.off('msg:custom', came); model.off('change:offered', draw); };
}
export default { render };
