// Keeps the pages that were seen, so that they can be read and entries written while the program is out of reach.
'use strict';
const CACHE = 'sourloam-seen-1';

self.addEventListener('install', () => self.skipWaiting());
self.addEventListener('activate', (event) => {
  event.waitUntil((async () => {
    for (const name of await caches.keys()) if (name !== CACHE) await caches.delete(name);
    await self.clients.claim();
  })());
});

const isKept = (url) => !url.pathname.startsWith('/history/') && !url.pathname.startsWith('/ask/');

self.addEventListener('fetch', (event) => {
  const { request } = event;
  const url = new URL(request.url);
  if (request.method !== 'GET' || url.origin !== self.location.origin) return;
  event.respondWith((async () => {
    const cache = await caches.open(CACHE);
    try {
      const answer = await fetch(request);
      if (answer.ok && isKept(url)) await cache.put(request, answer.clone());
      return answer;
    } catch (fault) {
      const seen = await cache.match(request);
      if (seen) return seen;
      const text = 'The program cannot be reached, and this page was not seen before. Go back; what you wrote waits.';
      return new Response(text, { status: 503, headers: { 'Content-Type': 'text/plain; charset=utf-8' } });
    }
  })());
});
