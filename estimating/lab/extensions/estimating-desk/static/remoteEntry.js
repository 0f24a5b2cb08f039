// An extension in the form JupyterLab loads as it is, written by hand: one module, nothing to build.
// It runs every cell of a notebook whose metadata say estimating.opens_itself, if every code cell of it is trusted,
// and again when its kernel was started anew, whoever did it.
(() => {
  const wanted = panel => panel.context.model.sharedModel.getMetadata('estimating')?.opens_itself
    && panel.content.widgets.filter(cell => cell.model.type === 'code').every(cell => cell.model.trusted);
  const activate = app => {
    const known = new WeakSet();
    const run = () => app.commands.execute('notebook:run-all-cells');
    let asking = false, again = 0; // again: not to be looked at before
    const lost = async panel => { // a form unheard: a kernel that answers but holds no widget was started anew unseen
      const kernel = panel.context?.sessionContext?.session?.kernel;
      if (asking || Date.now() < again || !kernel || kernel.status === 'dead' || app.shell.currentWidget !== panel) return;
      asking = true;
      const late = new Promise(resolve => setTimeout(resolve, 5000));
      const answer = await Promise.race([kernel.requestCommInfo({ target_name: 'jupyter.widget' }), late]).catch(() => null);
      asking = false;
      if (answer?.content.status !== 'ok' || Object.keys(answer.content.comms).length) return;
      again = Date.now() + 20000; // time enough to run
      run();
    };
    const opened = async panel => {
      const context = panel?.context;
      if (!context?.sessionContext || !panel.content?.widgets || known.has(panel)) return;
      known.add(panel);
      await Promise.all([context.ready, panel.revealed]);
      if (!wanted(panel)) return;
      await context.sessionContext.ready;
      run();
      addEventListener('estimating-desk:lost', () => lost(panel));
      let began = false; // a kernel started anew, by hand or after it was killed: run again, and the draft is taken up
      context.sessionContext.statusChanged.connect((_, status) => {
        if (status === 'restarting' || status === 'autorestarting') began = true;
        else if (began && status === 'idle' && app.shell.currentWidget === panel) {
          began = false;
          document.querySelector('.jp-Dialog .jp-mod-accept')?.click();
          run();
        }
      });
    };
    const look = () => opened(app.shell.currentWidget);
    app.shell.currentChanged?.connect(look);
    app.restored.then(look);
  };
  const plugin = { id: 'estimating-desk:opens-itself', autoStart: true, activate };
  globalThis._JUPYTERLAB = globalThis._JUPYTERLAB ?? {};
  globalThis._JUPYTERLAB['estimating-desk'] = { init: () => {}, get: () => Promise.resolve(() => ({ __esModule: true, default: [plugin] })) };
})();
