import { portTrouble } from './port-trouble.ts';
import type { Transport } from './transport.ts';

const CLOSED_WITHIN_MS = 1000;

/** A transport as those see it who must know when it is gone. */
export interface WatchedTransport {
  /** Resolves when the port is gone, with what was heard of it; never rejects. */
  readonly lost: Promise<string>;
  /** Resolves when the port is closed. */
  close(): Promise<void>;
}

/** Libraries go on calling a dead port ready, so the port itself is watched. */
export function watchTransport(transport: Transport): WatchedTransport {
  let gone = false;
  const lost = new Promise<string>((resolve) => {
    transport.on('close', (error?: Error | null) => {
      gone = true;
      resolve(error?.message ?? 'closed');
    });
    transport.on('error', (error: Error) => {
      gone = true;
      resolve(error.message);
    });
  });
  return {
    lost,
    close: () =>
      new Promise((resolve) => {
        if (gone) {
          // After an error the port may still be open; closing a closed one only calls back.
          transport.close(() => undefined);
          resolve();
          return;
        }
        // A port whose far end hangs may never call back; nobody waits for it longer than this.
        const timer = setTimeout(resolve, CLOSED_WITHIN_MS);
        transport.close(() => {
          clearTimeout(timer);
          gone = true;
          resolve();
        });
      }),
  };
}

/** Resolves when the port is open; rejects with why it cannot be. The port is closed then. */
export async function opened(
  transport: Transport,
  watch: WatchedTransport,
  portName: string,
): Promise<void> {
  const trouble = await Promise.race([
    new Promise<null>((resolve) => transport.once('open', () => resolve(null))),
    watch.lost,
  ]);
  if (trouble === null) return;
  await watch.close();
  throw await portTrouble(portName, trouble);
}
