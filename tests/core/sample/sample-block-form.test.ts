import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { isSampleBlock } from '#core/sample/sample-block-form.ts';
import { type SampleBlock, sampleBlock } from '#core/sample/stream-item.ts';

const count = fc.oneof(fc.nat(), fc.constantFrom(0, Number.MAX_SAFE_INTEGER));
const block = fc
  .tuple(fc.integer({ min: 1, max: 6 }), fc.integer({ min: 1, max: 3 }), fc.boolean())
  .chain(([samples, channels, withSteps]) => {
    const of = <T>(each: fc.Arbitrary<T>) =>
      fc.array(each, { minLength: samples, maxLength: samples });
    return fc
      .record({
        number: count,
        firstSequence: count,
        firstBoardUs: count,
        stepUs: of(count),
        stepSequence: of(count),
        columns: fc.array(of(fc.oneof(fc.constant(null), fc.integer())), {
          minLength: channels,
          maxLength: channels,
        }),
        faults: fc.array(fc.tuple(count, count, fc.constant('leg-loop-broken' as const)), {
          maxLength: 2,
        }),
        skipped: count,
        arrivedStationS: fc.double({ noNaN: true, noDefaultInfinity: true }),
      })
      .map(({ stepSequence, ...rest }): SampleBlock => {
        const head = { type: 'samples', stream: 'station-1/board-1/1', v: 1 } as const;
        return { ...head, ...rest, ...(withSteps ? { stepSequence } : {}) };
      });
  });

/** What a stranger's JSON may put in the place of anything. */
const other = fc.oneof(
  fc.constantFrom(
    null,
    true,
    '',
    'samples',
    -1,
    -0,
    0.5,
    Number.POSITIVE_INFINITY,
    2 ** 53,
    -(2 ** 53),
    1e308,
  ),
  fc.constantFrom<unknown>([], [0], [[0]], [[0, 0, 'no-such-code']], [[0, 0, 'constructor']], {}),
  fc.jsonValue(),
);

/** A copy with something else at a place that the number chooses, or a key more or less. */
function spoilt(value: SampleBlock, choose: number, put: unknown): unknown {
  const copy = structuredClone(value) as unknown as Record<string, unknown>;
  const keys = [...Object.keys(copy), 'stepSequence', 'extra'];
  const key = keys[choose % keys.length]!;
  const deep = copy[key];
  const way = Math.floor(choose / keys.length) % 4;
  if (way === 0) delete copy[key];
  else if (way === 1 || !Array.isArray(deep)) copy[key] = put;
  else if (way === 2) deep.push(put);
  else {
    const inner: unknown = deep[choose % Math.max(1, deep.length)];
    if (Array.isArray(inner)) inner[choose % Math.max(1, inner.length)] = put;
    else deep[choose % Math.max(1, deep.length)] = put;
  }
  return copy;
}

describe('the form of a sample block, looked at by hand', () => {
  it('is what the schema says it is, with the same data, for good blocks and for spoilt ones', () => {
    let good = 0;
    let bad = 0;
    fc.assert(
      fc.property(block, fc.nat(), other, (value, choose, put) => {
        expect(isSampleBlock(value)).toBe(true);
        expect(sampleBlock.parse(value)).toEqual(value);
        const strange = spoilt(value, choose, put);
        const schema = sampleBlock.safeParse(strange);
        expect(isSampleBlock(strange)).toBe(schema.success);
        if (schema.success) good += 1;
        else bad += 1;
      }),
      { numRuns: 3000 },
    );
    expect(Math.min(good, bad)).toBeGreaterThan(100);
  });

  it('is refused beyond its limits', () => {
    const long = (samples: number, channels: number, faults = 0) => ({
      type: 'samples',
      stream: 'station-1/board-1/1',
      number: 1,
      v: 1,
      firstSequence: 0,
      firstBoardUs: 0,
      stepUs: Array(samples).fill(0),
      columns: Array.from({ length: channels }, () => Array(samples).fill(0)),
      faults: Array.from({ length: faults }, () => [0, 0, 'leg-loop-broken']),
      skipped: 0,
      arrivedStationS: 0,
    });
    for (const [value, holds] of [
      [long(256, 16, 4096), true],
      [long(257, 1), false],
      [long(1, 17), false],
      [long(0, 1), false],
      [long(1, 0), false],
      [long(1, 1, 4097), false],
    ] as const) {
      expect(isSampleBlock(value)).toBe(holds);
      expect(sampleBlock.safeParse(value).success).toBe(holds);
    }
  });
});
