// Clients that hold a server up: they connect and say nothing, drip their headers or their body, or take no answer.
import net from 'node:net';

const kinds = ['silent', 'dripping headers', 'dripping bodies', 'news that nobody takes', 'answers that nobody takes'];

/** `most` of them at a time, of each kind as many; one that the server closes comes again. `stop()` says how often that was. */
export function slow_clients(url, cookie, most) {
  const host = `Host: ${url.host}\r\nCookie: ${cookie}\r\n`;
  const open = new Set();
  const closed = kinds.map(() => 0);
  let over = false;
  const timers = [];

  function begin(kind) {
    if (over) return;
    const socket = net.connect(Number(url.port), url.hostname);
    open.add(socket);
    socket.on('error', () => {});
    socket.on('close', () => {
      open.delete(socket);
      if (over) return;
      closed[kind] += 1;
      setTimeout(() => begin(kind), 100);
    });
    if (kind === 1) socket.write(`GET /api/site HTTP/1.1\r\n${host}`);
    if (kind === 2) socket.write(`POST /api/edits HTTP/1.1\r\n${host}Content-Type: application/json\r\nContent-Length: 900000\r\n\r\n`);
    if (kind === 3) socket.write(`GET /api/feed?after=0 HTTP/1.1\r\n${host}\r\n`);
    if (kind === 4) socket.write(`GET /api/lines HTTP/1.1\r\n${host}\r\n`);
    if (kind > 2) socket.pause();
    if (kind === 1 || kind === 2) {
      const drip = setInterval(() => (socket.destroyed ? clearInterval(drip) : socket.write('x')), 1000);
      timers.push(drip);
    }
  }
  for (let i = 0; i < most; i += 1) begin(i % kinds.length);
  return {
    stop() {
      over = true;
      for (const timer of timers) clearInterval(timer);
      for (const socket of open) socket.destroy();
      return kinds.map((kind, i) => `${kind} (closed ${closed[i]} times)`).join(', ');
    },
  };
}
