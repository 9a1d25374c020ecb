import { MOST_YAW_DEG } from '#core/calibration/alignment.ts';
import type { Calibration } from '#core/calibration/calibration.ts';
import type { CalibrationLimits, LimitHeld } from '#core/calibration/limits.ts';
import type { Certificate } from '#core/sample/certificate.ts';
import { fixedWords, significantWords, tableWords } from './figure.ts';

const FIGURES: Readonly<Record<keyof CalibrationLimits, string>> = {
  largestResidual: 'largest left over',
  repeatability: 'repeats, the same way',
  hysteresis: 'up against down',
  zeroReturn: 'back at the beginning',
  scaleExpandedShare: 'scale, expanded (k = 2)',
  leastRange: 'range of the settings',
};
const VERDICTS = { within: 'within', beyond: 'BEYOND', 'not-shown': 'not shown' } as const;

/** A calibration in words: the line, what it is worth, and what it is held to. */
export function calibrateWords(calibration: Calibration, unit: 'degree' | 'mm'): string[] {
  const { certificate, fit, limits, reversal, temperature, timeConstant } = calibration;
  const share = fit.scaleUncertainty;
  return [
    `${certificate.instrument}, certificate ${certificate.number}, ${certificate.date}`,
    `  scale ${fixedWords(certificate.scale, 6)}, uncertain by ${percent(share.together)} ` +
      `(fit ${percent(share.ofFit)}, standard ${certificate.standard?.number} ${percent(share.common)}, ` +
      'which all instruments of this standard share)',
    `  zero ${significantWords(certificate.zero, 4)} in the unit of the fit, ` +
      `uncertain by ${significantWords(fit.zero.standardUncertainty, 2)}`,
    `  a bend (square term) of this size would come by chance ${percent(fit.bend.probability)} of the time`,
    ...(reversal === null
      ? []
      : [
          `  zero by reversal ${fixedWords(reversal.zeroDeg.value, 4)} degrees, ` +
            `uncertain by ${fixedWords(reversal.zeroDeg.standardUncertainty, 4)}`,
        ]),
    ...(temperature === null
      ? []
      : [
          `  drift ${fixedWords(temperature.perK, 5)} a kelvin, ` +
            `${fixedWords(temperature.fromC, 1)} to ${fixedWords(temperature.toC, 1)} C`,
        ]),
    ...(timeConstant === null
      ? []
      : [
          `  time constant ${fixedWords(timeConstant.timeConstantS.value, 1)} s, ` +
            `uncertain by ${fixedWords(timeConstant.timeConstantS.standardUncertainty, 2)}`,
        ]),
    ...alignmentWords(calibration),
    ...calibration.axes.map(
      ({ axis, offsetG, gain }) =>
        `  axis ${axis}: offset ${fixedWords(offsetG, 4)} g, gain ${fixedWords(gain, 4)} (six positions)`,
    ),
    '',
    ...tableWords([
      ['held to (limits of ours)', 'shown', 'limit', ''],
      ...limits.map((limit) => limitRow(limit, unit)),
    ]),
    ...asFoundWords(certificate),
  ];
}

function alignmentWords({ alignment }: Calibration): string[] {
  if (alignment === null) return [];
  const { yawDeg, yawUncertaintyDeg, heelLostShare } = alignment;
  const again =
    Math.abs(yawDeg) > MOST_YAW_DEG
      ? `: more than ${MOST_YAW_DEG} degrees, set the base again`
      : '';
  return [
    `  base ${fixedWords(yawDeg, 2)} degrees off the transverse, uncertain by ` +
      `${fixedWords(yawUncertaintyDeg, 2)}; it hides ${percent(heelLostShare)} of the heel${again}`,
  ];
}

function limitRow({ figure, value, limit, verdict }: LimitHeld, unit: string): string[] {
  const words = (number: number) =>
    figure === 'scaleExpandedShare'
      ? percent(number)
      : `${significantWords(number, 3)} ${unit === 'degree' && number !== 1 ? 'degrees' : unit}`;
  return [FIGURES[figure], value === null ? '-' : words(value), words(limit), VERDICTS[verdict]];
}

function asFoundWords({ asFound, scale }: Certificate): string[] {
  if (asFound === undefined) return [];
  const changed = percent(scale / asFound.scale - 1);
  return ['', `Since the certificate before, the scale changed by ${changed}.`];
}

function percent(share: number): string {
  return `${significantWords(100 * share, 3)} %`;
}
