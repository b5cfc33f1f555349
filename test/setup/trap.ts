/** A module that is loaded before the program and lets nothing out to the network. */

/** Every way out of Node ends in one of these; each use is written to the file TRAPPED names and fails. */
export const TRAP = `import { appendFileSync } from 'node:fs';
  import { createRequire, syncBuiltinESMExports } from 'node:module';
  const require = createRequire(import.meta.url);
  const WAYS = { net: ['connect', 'createConnection', 'createServer'], tls: ['connect'], dgram: ['createSocket'],
    http: ['request', 'get', 'createServer'], https: ['request', 'get'], http2: ['connect'],
    dns: ['lookup', 'resolve', 'resolve4', 'resolve6'] };
  // The loader of the sources speaks to its own process through a local pipe, which is no network.
  const isPipe = ([first]) => {
    const to = Array.isArray(first) ? first[0] : first;
    return typeof to === 'string' ? !/^\\d+$/.test(to) : typeof to?.path === 'string';
  };
  const trap = (name, real) => function (...to) {
    if (real && isPipe(to)) return real.apply(this, to);
    appendFileSync(process.env.TRAPPED, name + '\\n'); throw new Error('network: ' + name);
  };
  for (const [module, names] of Object.entries(WAYS)) {
    const ways = require('node:' + module);
    for (const name of names) ways[name] = trap(module + '.' + name, module === 'net' ? ways[name] : null);
  }
  const { prototype } = require('node:net').Socket;
  prototype.connect = trap('net.Socket.connect', prototype.connect);
  for (const name of ['fetch', 'WebSocket', 'EventSource']) globalThis[name] = trap(name);
  syncBuiltinESMExports();`;
