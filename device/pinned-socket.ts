import { createHash } from 'node:crypto';
import type { Duplex } from 'node:stream';
import { TLSSocket } from 'node:tls';
import WebSocket from 'ws';
import { MOST_LINK_MESSAGE_BYTES } from '#core/wire/link-message.ts';

export interface PinnedSocketSettings {
  readonly url: string;
  readonly handshakeWithinS: number;
  /** SHA-256, hex, of the public key the other end's TLS certificate must have; null: issuers vouch. */
  readonly pin: string | null;
  readonly onOpen: (socket: WebSocket) => void;
  /** It is not the one that was pinned; nothing was said to it. */
  readonly onImpostor: () => void;
  readonly onMessage: (socket: WebSocket, data: Buffer, isBinary: boolean) => void;
  /** Once, with the reason, whatever ended it. */
  readonly onClose: (socket: WebSocket, why: string) => void;
}

/** A socket to the receiver, held to the key it must have before anything is said. */
export function openPinnedSocket(settings: PinnedSocketSettings): WebSocket {
  const { pin } = settings;
  const socket = new WebSocket(settings.url, {
    maxPayload: MOST_LINK_MESSAGE_BYTES,
    handshakeTimeout: settings.handshakeWithinS * 1000,
    perMessageDeflate: false,
    rejectUnauthorized: pin === null,
  });
  let peer: Duplex | null = null;
  socket.on('upgrade', (response) => {
    peer = response.socket;
  });
  socket.on('open', () => {
    if (pin === null || hasKey(peer, pin)) settings.onOpen(socket);
    else {
      settings.onImpostor();
      socket.terminate();
    }
  });
  socket.on('message', (data: Buffer, isBinary: boolean) =>
    settings.onMessage(socket, data, isBinary),
  );
  // 'close' always follows 'error'; the reason is told once, at the close.
  let why = '';
  socket.on('error', (error) => {
    why = error.message;
  });
  socket.on('close', (code) => settings.onClose(socket, why || `closed with ${code}`));
  return socket;
}

function hasKey(peer: Duplex | null, pin: string): boolean {
  if (!(peer instanceof TLSSocket)) return false;
  const certificate = peer.getPeerX509Certificate();
  if (certificate === undefined) return false;
  const spki = certificate.publicKey.export({ type: 'spki', format: 'der' });
  return createHash('sha256').update(spki).digest('hex') === pin;
}
