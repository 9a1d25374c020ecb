import { type Converter, faultKey, type InstrumentHeel } from './checked-block.ts';
import { countedConverter, isCounted } from './counted-heel.ts';
import { inclinometerConverter } from './inclinometer-heel.ts';
import type { MountedInstrument } from './indicated-heel.ts';
import type { Channel, SampleBlock } from './stream-item.ts';
import { waterTubeConverter } from './water-tube-heel.ts';

/**
 * Turns the counts of one stream into heel, block after block. Keeps only the newest reading of
 * each leg of a water tube between blocks, so blocks of one stream come in order.
 */
export class HeelConversion {
  readonly #converters: readonly Converter[];

  /**
   * Instruments of the stream that are not in `mounted` are left out: without a mounting nobody
   * knows which side is down. RangeError when an instrument lacks a column its kind needs, or its
   * part is not one of that kind.
   */
  constructor(
    stream: { channels: readonly Channel[]; periodUs: number },
    mounted: readonly MountedInstrument[],
  ) {
    const inStream = new Set(stream.channels.map((one) => one.instrument));
    this.#converters = mounted
      .filter((one) => inStream.has(one.mounting.instrument))
      .map((one) => {
        if (isCounted(stream.channels, one.mounting.instrument))
          return countedConverter(stream.channels, one);
        return one.mounting.kind === 'inclinometer'
          ? inclinometerConverter(stream.channels, one)
          : waterTubeConverter(stream.channels, stream.periodUs, one);
      });
  }

  convert(block: SampleBlock): InstrumentHeel[] {
    const faulty = new Set(block.faults.map(([sample, column]) => faultKey(sample, column)));
    return this.#converters.map((convert) => convert({ block, faulty }));
  }
}
