import { Fault } from '#core/fault/fault.ts';

/** Where a receiver on this machine listens when nothing else is said. */
export const DEFAULT_RECEIVER_URL = 'ws://127.0.0.1:4780/device';

/**
 * Checks the receiver's address; `/device` is added where no path is given. Off this machine the
 * connection must be encrypted. Throws `input-shape` or `link-not-private`.
 */
export function receiverAddress(text: string): string {
  let url: URL;
  try {
    url = new URL(text);
  } catch {
    throw new Fault('input-shape', '--receiver', `${text} is no address`);
  }
  if (url.protocol !== 'ws:' && url.protocol !== 'wss:') {
    throw new Fault('input-shape', '--receiver', `${url.protocol} is neither ws: nor wss:`);
  }
  const loopback = /^(localhost|127(\.\d+){3}|\[::1\])$/.test(url.hostname);
  if (url.protocol === 'ws:' && !loopback) throw new Fault('link-not-private', '--receiver', text);
  if (url.pathname === '/') url.pathname = '/device';
  return url.href;
}
