import type { HandCheck } from '../session/hand-check.ts';
import { facts, heading, note, paragraph, table } from './blocks.ts';
import type { Block } from './document.ts';
import { fixed, significant } from './figure.ts';

/** So many rows and what is said about them stand on one page. */
const MOST_ROWS = 42;

/**
 * One page from which a pocket calculator gives the classical GM: moments, tangents, four sums and
 * the two formulas, with as many digits as it takes.
 */
export function partHandCheck(check: HandCheck | null): Block[] {
  const head: Block[] = [{ kind: 'page' }, heading(1, 'Check by hand')];
  if (check === null) return [...head, paragraph('There is no line to be checked.')];
  const { rows, sums, displacementT, slopePerTM, gmM, classicalGmM } = check;
  if (rows.length > MOST_ROWS)
    return [...head, paragraph(`${rows.length} states do not fit one page; check by the export.`)];
  return [
    ...head,
    paragraph(
      'From the moments M and tangents t below, every state counting alike, by plain least squares with a free intercept.',
    ),
    table(
      [
        ['State', 12],
        ['M, t·m', 22, 'right'],
        ['t', 22, 'right'],
        ['M²', 22, 'right'],
        ['M t', 22, 'right'],
      ],
      [
        ...rows.map(({ state, momentTM, tangent }) => [
          String(state),
          fixed(momentTM, 5),
          fixed(tangent, 7),
          fixed(momentTM ** 2, 5),
          fixed(momentTM * tangent, 7),
        ]),
        [
          `Sum of ${rows.length}`,
          fixed(sums.moment, 5),
          fixed(sums.tangent, 7),
          fixed(sums.momentSquared, 5),
          fixed(sums.momentTangent, 7),
        ],
      ],
    ),
    facts([
      ['Slope b', 'b = (n ΣMt − ΣM Σt) / (n ΣM² − (ΣM)²)'],
      ['b', `${significant(slopePerTM, 8)} per t·m`],
      ['Displacement Δ', `${significant(displacementT, 9)} t`],
      ['GM (fluid)', 'GM = 1 / (Δ b)'],
      ['GM by this page', `${fixed(gmM, 5)} m`],
      ['Classical GM of this report', `${fixed(classicalGmM, 5)} m`],
    ]),
    note(
      'M: heeling moment of the weights moved since state 0, to starboard positive, with the rise of the weights taken to its side. t: mean of the instruments, each less its own intercept. The report’s own line weighs states by the instruments they were read with; where all states were read by all, both are the same.',
    ),
  ];
}
