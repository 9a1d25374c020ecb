import { Fault } from '#core/fault/fault.ts';
import { SentenceLines } from './bus/sentence-lines.ts';
import { readSentence } from './drivers/nmea-sentence.ts';
import type { BoardPort } from './transport.ts';
import { opened, watchTransport } from './transport-watch.ts';

/** Rates instruments are usually set to, that of NMEA 0183 first. */
const LISTEN_RATES = [4800, 9600, 19_200, 38_400, 57_600, 115_200] as const;
/** An instrument that sends once a second is heard in this time. */
export const LISTEN_MS = 1300;
const MOST_KINDS = 8;

/** What was heard at a port on which no board answers. */
export interface Heard {
  /** The rate at which sentences were read; null: at none. */
  readonly baudRate: number | null;
  /** One sentence of each kind, whole. */
  readonly sentences: readonly string[];
  /** Bytes that came, at all rates together. */
  readonly bytes: number;
}

/**
 * Listens at one rate after the other for an instrument that speaks by itself. Nothing is sent.
 * Rejects with a Fault when the port cannot be opened.
 */
export async function listenAt(
  port: (baudRate: number) => BoardPort,
  listenMs: number,
): Promise<Heard> {
  let bytes = 0;
  for (const baudRate of LISTEN_RATES) {
    const heard = await listenOnce(port(baudRate), listenMs);
    bytes += heard.bytes;
    if (heard.sentences.length > 0) return { ...heard, baudRate, bytes };
  }
  return { baudRate: null, sentences: [], bytes };
}

async function listenOnce(
  port: BoardPort,
  listenMs: number,
): Promise<{ sentences: string[]; bytes: number }> {
  const transport = port.open(port.baudRates[0]!);
  const watch = watchTransport(transport);
  await opened(transport, watch, port.name);
  const kinds = new Map<string, string>();
  let bytes = 0;
  const lines = new SentenceLines(port.name, {
    sentence: ({ text }) => {
      const kind = kindOf(text, port.name);
      if (kind !== null && kinds.size < MOST_KINDS) kinds.set(kind, text);
    },
    malformed: () => undefined,
  });
  transport.on('data', (some: Uint8Array) => {
    bytes += some.length;
    lines.take(some);
  });
  await Promise.race([new Promise((resolve) => setTimeout(resolve, listenMs)), watch.lost]);
  await watch.close();
  return { sentences: [...kinds.values()], bytes };
}

/** Null where the checksum does not hold: at a wrong rate anything may look like a sentence. */
function kindOf(text: string, where: string): string | null {
  try {
    const { talker, type } = readSentence(text, where);
    return `${talker} ${type}`;
  } catch (error) {
    if (error instanceof Fault) return null;
    throw error;
  }
}
