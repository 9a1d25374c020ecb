import type { StreamItem } from '#core/sample/stream-item.ts';
import { ClockJumps } from '#device/clock-jumps.ts';
import type { StoredItem } from '#device/stream-writer.ts';
import type { SoakSource } from '#tests/support/soak-source.ts';
import { SoakStreams } from '#tests/support/soak-streams.ts';

/** A message as it goes over the link, and the station's time at which it is made. */
export interface LinkMessage {
  readonly text: string;
  readonly stream: string;
  readonly number: number;
  /** Counts of all channels in it. */
  readonly samples: number;
  readonly stationS: number;
}

/**
 * What a board side sends of three boards with twelve channels at 50 Hz, made by the station's own
 * writer, samplers and clock maps from the simulated vessel: openings, blocks and clock pairings.
 */
export async function linkMessages(
  station: string,
  source: SoakSource,
  lastsS: number,
): Promise<LinkMessage[]> {
  const messages: LinkMessage[] = [];
  let nowS = 0;
  const clock = { monotonicS: () => nowS, wallMs: () => nowS * 1000 };
  const take = (stored: StoredItem): boolean => {
    const text = stored.bytes.toString('utf8');
    const item = JSON.parse(text) as StreamItem;
    const samples = item.type === 'samples' ? item.stepUs.length * item.columns.length : 0;
    const { stream, number } = stored;
    messages.push({ text, stream, number, samples, stationS: nowS });
    return true;
  };
  const services = {
    ...{ station, run: 'bench', clocks: { station: clock, machine: clock } },
    ...{ jumps: new ClockJumps(clock), sink: { take }, report: () => {} },
    nextStream: (board: string) => Promise.resolve(`${station}/${board}/1`),
  };
  const streams = await SoakStreams.open(services, source.boards, source.periodUs);
  while (source.nowS < lastsS)
    for (const scan of source.next()) {
      nowS = scan.arrivedS;
      const lost = streams.add(scan);
      if (lost !== null) throw new Error(lost);
    }
  return messages;
}
