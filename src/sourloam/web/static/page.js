// What a page does beyond reading and sending: entries wait here while the program is out of reach, and go in once.
(function () {
  'use strict';
  const KEY = 'sourloam-waiting';
  const waiting = () => { try { return JSON.parse(localStorage.getItem(KEY) || '[]'); } catch { return []; } };
  const keep = (list) => localStorage.setItem(KEY, JSON.stringify(list));

  const freshId = () => {
    const bytes = crypto.getRandomValues(new Uint8Array(8));
    return Array.from(bytes, (each) => each.toString(16).padStart(2, '0')).join('');
  };

  const tell = (words) => {
    const place = document.getElementById('waiting');
    const count = waiting().length;
    const number = count === 1 ? 'One entry waits' : count + ' entries wait';
    place.textContent = words || (count ? number + ' on this device. They go in once when the program can be reached.' : '');
    place.hidden = !place.textContent;
  };

  // One at a time and in order: a layer must not go in after the lid was sealed.
  let isSending = false;
  const send = async () => {
    if (isSending) return;
    isSending = true;
    let kept = 0;
    const refused = [];
    try {
      for (let list = waiting(); list.length; list = waiting()) {
        const [first] = list;
        const body = new URLSearchParams(first.fields);
        body.set('token', document.body.dataset.token);
        const answer = await fetch(first.path, { method: 'POST', body, redirect: 'follow' });
        if (answer.status >= 500 || answer.status === 403) break;
        keep(waiting().filter((each) => each.id !== first.id));
        if (answer.ok) kept += 1; else refused.push(first.says);
      }
    } catch { /* still out of reach */ } finally { isSending = false; }
    if (refused.length) tell('Not kept, since it does not fit: ' + refused.join('; ') + '.');
    else if (kept && !waiting().length) tell(kept === 1 ? 'The entry that waited is kept.' : kept + ' entries that waited are kept.');
    else tell();
  };

  document.addEventListener('submit', async (event) => {
    const form = event.target;
    if (!form.matches('form[data-keep]') || event.defaultPrevented) return;
    event.preventDefault();
    const fields = new FormData(form, event.submitter);
    if (!form.dataset.id) form.dataset.id = freshId();
    fields.set('entry-id', form.dataset.id);
    const body = new URLSearchParams(fields);
    try {
      const answer = await fetch(form.action, { method: 'POST', body, redirect: 'follow' });
      const page = await answer.text();
      if (answer.redirected) history.pushState({}, '', answer.url);
      shown = where();
      show(page);
    } catch {
      const says = form.dataset.says || (form.querySelector('[name=what]') || {}).value || 'An entry';
      keep([...waiting(), { id: form.dataset.id, path: new URL(form.action).pathname, fields: [...body], says }]);
      delete form.dataset.id;
      tell();
      document.getElementById('waiting').scrollIntoView();
    }
  });

  const show = (text) => {
    const page = new DOMParser().parseFromString(text, 'text/html');
    document.title = page.title;
    document.body.replaceWith(document.adoptNode(page.body));
    if (window.htmx) htmx.process(document.body);
    const focus = document.getElementById('faults') || document.getElementById('page');
    if (focus) focus.focus();
    window.scrollTo(0, 0);
    tell();
  };

  // Going back to another page loads it anew; a jump within the page does not.
  const where = () => location.pathname + location.search;
  let shown = where();
  window.addEventListener('popstate', () => { if (where() !== shown) location.reload(); });
  // A fresh forecast takes the place of the old one where it stands; the rest of the page is left as it is.
  const refresh = async () => {
    const here = [...document.querySelectorAll('[data-fresh]')];
    if (!here.length) return;
    const page = new DOMParser().parseFromString(await (await fetch(location.href)).text(), 'text/html');
    for (const each of here) {
      const fresh = page.getElementById(each.id);
      if (fresh) each.replaceWith(document.adoptNode(fresh));
    }
    tell('Computed just now.');
  };
  const listen = () => {
    let before = null;
    new EventSource('/events').addEventListener('message', (event) => {
      const told = JSON.parse(event.data);
      const place = document.getElementById('working');
      place.querySelector('span').textContent = told.working ? told.working + '.' : '';
      place.hidden = !told.working;
      if (before !== null && told.fresh !== before) refresh().catch(() => {});
      before = told.fresh;
    });
  };
  setTimeout(listen, 1500);

  window.addEventListener('online', send);
  document.addEventListener('DOMContentLoaded', () => { tell(); if (waiting().length) send(); });
  setInterval(() => { if (waiting().length) send(); }, 15000);
  if ('serviceWorker' in navigator && window.isSecureContext) navigator.serviceWorker.register('/worker.js');
})();
