import { Fault } from '#core/fault/fault.ts';
import { addressText } from '../bus/bus.ts';
import { type Chip, type Count, countWithout, type Driver, type StepAnswer } from './driver.ts';

/**
 * TI ADS1115, 16-bit converter, with two inputs against ground in turn. One conversion a scan, the
 * input switched by the board itself: an even scan starts AIN0 and carries AIN1's conversion, an
 * odd scan the other way round. Register and field numbers as in the Linux driver ti-ads1015 and
 * the Adafruit library (the maker's sheet SBAS444 was not at hand).
 */
const REGISTER = { conversion: 0, config: 1, lowThreshold: 2, highThreshold: 3 } as const;

/** OS start | MUX AINx to ground | PGA | single shot | DR | comparator off. */
const START = 0x8000;
const AIN0 = 0x4000;
const AIN1 = 0x5000;
const SINGLE_SHOT = 0x0100;
const COMPARATOR_OFF = 0x0003;
/** PGA field by full scale. */
const PGA = { '6.144 V': 0x0000, '4.096 V': 0x0200 } as const;
export type FullScale = keyof typeof PGA;

/**
 * DR codes by the time a conversion takes at most: 1 / rate, and 10 % more, since the rate is
 * good to 10 % only (second-hand note of the sheet). Slowest first: it is the least noisy.
 */
const RATES = [
  { code: 0, rateHz: 8 },
  { code: 1, rateHz: 16 },
  { code: 2, rateHz: 32 },
  { code: 3, rateHz: 64 },
  { code: 4, rateHz: 128 },
  { code: 5, rateHz: 250 },
  { code: 6, rateHz: 475 },
  { code: 7, rateHz: 860 },
] as const;
/** The bus is a scan's duration late with the start and early with the read. */
const BUS_US = 3000;

/** After power-up (from memory); a conversion never writes them. */
const LOW_THRESHOLD = 0x8000;
const HIGH_THRESHOLD = 0x7fff;

/** The slowest data rate of which a conversion is surely done within a scan. */
export function dataRateCode(periodUs: number): number {
  const rate = RATES.find(({ rateHz }) => 1.1e6 / rateHz + BUS_US <= periodUs);
  if (rate === undefined) throw new RangeError(`no conversion fits a scan every ${periodUs} us`);
  return rate.code;
}

/** The driver of what is wired to the two inputs. */
export function twoInputs(
  of: { fullScale: FullScale } & Pick<Driver, 'part' | 'quantities' | 'isLeg' | 'foundByLooking'>,
): Driver {
  const { fullScale, ...what } = of;
  const configWord = (input: number, periodUs: number): number[] => {
    const word =
      START | input | PGA[fullScale] | SINGLE_SHOT | (dataRateCode(periodUs) << 5) | COMPARATOR_OFF;
    return [word >> 8, word & 0xff];
  };
  const start = (input: number, periodUs: number, when: 'even' | 'odd') =>
    ({
      register: REGISTER.config,
      readCount: 0,
      write: configWord(input, periodUs),
      when,
      fromFrameBefore: false,
    }) as const;
  return {
    ...what,
    addresses: [0x48, 0x49, 0x4a, 0x4b],
    aloneBecause: null,
    // Water at rest in a tube that is read coarsely may well repeat a count for minutes.
    stuckAfterScans: null,
    countRange: { least: -32768, most: 32767 },
    identify,
    async configure(chip, periodUs) {
      await identify(chip);
      await setUp(chip, configWord(AIN0, periodUs));
    },
    check: identify,
    steps: (periodUs) => [
      {
        register: REGISTER.conversion,
        readCount: 2,
        write: [],
        when: 'always',
        fromFrameBefore: true,
      },
      start(AIN0, periodUs, 'even'),
      start(AIN1, periodUs, 'odd'),
    ],
    counts: countsInTurn,
  };
}

/** The chip has no identity register: its thresholds at their power-up values stand for one. */
async function identify(chip: Pick<Chip, 'bus' | 'address' | 'where'>): Promise<void> {
  const expected = [
    [REGISTER.lowThreshold, LOW_THRESHOLD],
    [REGISTER.highThreshold, HIGH_THRESHOLD],
  ] as const;
  for (const [register, wanted] of expected) {
    const bytes = await chip.bus.read(chip.address, register, 2);
    const value = (bytes[0]! << 8) | bytes[1]!;
    if (value !== wanted) {
      const found = `register ${register} holds ${addressText(value)}, not ${addressText(wanted)}`;
      throw new Fault('chip-wrong-identity', chip.where, found);
    }
  }
}

async function setUp(chip: Chip, wanted: readonly number[]): Promise<void> {
  await chip.bus.write(chip.address, REGISTER.config, wanted);
  const kept = await chip.bus.read(chip.address, REGISTER.config, 2);
  // The topmost bit reads as "a conversion runs", not as what was written.
  if ((kept[0]! & 0x7f) !== (wanted[0]! & 0x7f) || kept[1] !== wanted[1]) {
    const found = `config holds ${addressText((kept[0]! << 8) | kept[1]!)}`;
    throw new Fault('chip-not-configured', chip.where, found);
  }
}

function countsInTurn(answers: readonly StepAnswer[], sequence: number): readonly Count[] {
  const [conversion, startFirst, startSecond] = answers;
  // A start that failed is a fault of the input it was for, beside what the conversion says.
  const notDue: Count = { count: null, fault: null };
  const got: Count =
    conversion?.kind === 'bytes'
      ? { count: ((conversion.bytes[0]! << 24) | (conversion.bytes[1]! << 16)) >> 16, fault: null }
      : countWithout(conversion!);
  const even = sequence % 2 === 0;
  const start = even ? startFirst : startSecond;
  const other: Count = start?.kind === 'failed' ? { count: null, fault: start.code } : notDue;
  return even ? [other, got] : [got, other];
}
