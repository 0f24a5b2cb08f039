// Resolves when the desk has not changed for a moment.
() => new Promise(done => { let timer = setTimeout(done, 700); const body = document.querySelector('.estimating-desk');
  new MutationObserver(all => { if (all.every(one => one.target.closest?.('.desk-pulse'))) return; clearTimeout(timer); timer = setTimeout(done, 700); })
    .observe(body, { subtree: true, childList: true, attributes: true, characterData: true }); setTimeout(done, 20000); })
