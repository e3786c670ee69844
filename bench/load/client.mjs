// One browser: a session, a connection for requests and one for the news.
import http from 'node:http';
import { performance } from 'node:perf_hooks';

export const sleep = (milliseconds) => new Promise((is) => setTimeout(is, milliseconds));

export class Client {
  constructor(url) {
    this.url = url;
    this.agent = new http.Agent({ keepAlive: true, maxSockets: 1 });
    this.cookie = '';
    this.listening = null;
  }
  /** {status, body, took, cookie}: milliseconds from the call to the last byte. */
  ask(method, path, body) {
    const text = body === undefined ? undefined : JSON.stringify(body);
    const begun = performance.now();
    return new Promise((is, fails) => {
      const headers = { Cookie: this.cookie, ...(text === undefined ? {} : { 'Content-Type': 'application/json', 'Content-Length': Buffer.byteLength(text) }) };
      const request = http.request({ host: this.url.hostname, port: this.url.port, method, path, headers, agent: this.agent }, (response) => {
        const parts = [];
        response.on('data', (part) => parts.push(part));
        response.on('error', fails);
        response.on('end', () => is({ status: response.statusCode, body: Buffer.concat(parts).toString(), took: performance.now() - begun, cookie: response.headers['set-cookie']?.[0] }));
      });
      request.on('error', fails);
      request.end(text);
    });
  }
  async sign_in(name, password) {
    const answer = await this.ask('POST', '/api/sign-in', { name, password });
    if (answer.status !== 200) throw new Error(`${name} cannot sign in: ${answer.status} ${answer.body}`);
    this.cookie = answer.cookie.split(';')[0];
  }
  /** The feed of changes: `heard(uids)` for what comes. */
  listen(heard) {
    this.listening = http.get({ host: this.url.hostname, port: this.url.port, path: '/api/feed', headers: { Cookie: this.cookie }, agent: false }, (response) => {
      let rest = '';
      response.setEncoding('utf8');
      response.on('error', () => {});
      response.on('data', (text) => {
        rest += text;
        const blocks = rest.split('\n\n');
        rest = blocks.pop() ?? '';
        for (const block of blocks) {
          const uid = /"uid":\s*"([0-9a-f]{32})"/.exec(block);
          if (uid) heard(uid[1]);
        }
      });
    });
    this.listening.on('error', () => {});
  }
  close() {
    this.listening?.destroy();
    this.agent.destroy();
  }
}
