import { certificateResiduals } from '../calibration/certificate-residuals.ts';
import { INCLINOMETER_LIMITS, WATER_TUBE_LIMITS } from '../calibration/limits.ts';
import type { Certificate } from '../sample/certificate.ts';
import { facts, heading, note, tableOr } from './blocks.ts';
import type { Block, ReportDocument } from './document.ts';
import { significant } from './figure.ts';
import { certificateRows } from './part-instruments.ts';

/** What a document says of itself beside its content. */
export interface DocumentFrame {
  readonly subject: string;
  /** Moment it stands for (ISO 8601). */
  readonly wall: string;
  readonly marks: readonly string[];
  readonly foot: string;
}

/** Certificates of calibration, each beginning on a page of its own. */
export function certificateDocument(
  certificates: readonly Certificate[],
  frame: DocumentFrame,
): ReportDocument {
  return {
    ...frame,
    title: 'Certificate of calibration',
    language: 'en',
    blocks: certificates.flatMap((one, k): Block[] => [
      ...(k === 0 ? [] : [{ kind: 'page' } as const]),
      ...certificateBlocks(one),
    ]),
    attachments: certificates.map((one) => ({
      name: `${one.number.replace(/[^\w.-]/g, '_')}.json`,
      type: 'application/json',
      description: `Certificate ${one.number} as the program reads it`,
      bytes: new TextEncoder().encode(`${JSON.stringify(one, null, 2)}\n`),
    })),
  };
}

function certificateBlocks(one: Certificate): Block[] {
  const isTube = one.method.includes('leg') || one.timeConstantS !== undefined;
  const limits = isTube ? WATER_TUBE_LIMITS : INCLINOMETER_LIMITS;
  const { proven, temperature, reversal, timeConstantS, asFound, noise } = one;
  return [
    { kind: 'title', text: `Certificate ${one.number}` },
    facts([
      ...certificateRows(one),
      ['Place', one.place ?? 'not stated'],
      [
        'Serial number; firmware',
        [one.item?.serial, one.item?.firmware].map((part) => part ?? 'not stated').join('; '),
      ],
      [
        'Gravity at the place',
        one.gravityMS2 === undefined ? 'not stated' : `${significant(one.gravityMS2, 7)} m/s²`,
      ],
      [
        'Noise of single smoothed samples',
        noise === undefined ? 'not shown' : significant(noise, 3),
      ],
      [
        'Zero by reversal',
        reversal === undefined
          ? 'not taken'
          : `${significant(reversal.value, 4)}°, standard uncertainty ${significant(reversal.standardUncertainty, 2)}°`,
      ],
      [
        'Time constant',
        timeConstantS === undefined
          ? 'not taken'
          : `${significant(timeConstantS.value, 4)} s, standard uncertainty ${significant(timeConstantS.standardUncertainty, 2)} s`,
      ],
      [
        'Drift with warmth',
        temperature === undefined
          ? 'not taken'
          : `${significant(temperature.perK, 3)} a kelvin, ${significant(temperature.fromC, 3)} to ${significant(temperature.toC, 3)} °C`,
      ],
      [
        'As found',
        asFound === undefined
          ? 'first calibration'
          : `zero ${significant(asFound.zero, 6)}, scale ${significant(asFound.scale, 8)}`,
      ],
    ]),
    heading(2, 'Held to'),
    tableOr(
      [
        ['Figure', 50],
        ['Shown', 25, 'right'],
        ['Limit, our setting', 25, 'right'],
      ],
      proven === undefined
        ? []
        : (
            [
              ['Largest residual', proven.largestResidual, limits.largestResidual],
              ['Repeats, the same way', proven.repeatability, limits.repeatability],
              ['Up against down', proven.hysteresis, limits.hysteresis],
              ['Back at the beginning', proven.zeroReturn, limits.zeroReturn],
            ] as const
          ).map(([figure, shown, limit]) => [
            figure,
            shown === null ? 'not shown' : significant(shown, 3),
            significant(limit, 3),
          ]),
      'The certificate does not say what the calibration showed.',
    ),
    note(
      'No text of the trade gives a figure for an instrument of an inclining test; these limits are ours. Residual limits of an inclinometer are in degrees, of a water tube in millimetres.',
    ),
    heading(2, 'Points in the order they were taken'),
    tableOr(
      [
        ['No.', 10],
        ['Indicated', 30, 'right'],
        ['Reference', 30, 'right'],
        ['Residual', 30, 'right'],
      ],
      certificateResiduals(one).map(({ indicated, reference, residual }, k) => [
        String(k + 1),
        significant(indicated, 7),
        significant(reference, 7),
        significant(residual, 2),
      ]),
      'The certificate holds no points.',
    ),
    note(
      'Inclinometers are fitted in sine space, sin(true) = zero + scale × sin(indicated), the points being sines; the legs of a water tube in level difference, millimetres.',
    ),
    { kind: 'ink', lines: ['Calibrated by', 'Date'] },
  ];
}
