import type { Judging } from '#core/limits/judged-picture.ts';
import type { EvidenceQuestion } from '#core/stability/condition-evidence.ts';
import { US_WORKING } from '#core/stability/rules/united-states.ts';
import { type BoxLoad, boxQuestion } from '../stability/box-condition.ts';

export const WORKING: Judging = { sets: [US_WORKING], signed: [] };

/** The box as a workboat, lower and lighter, so that the usual requirements are met. */
export function workingBox(load: BoxLoad = {}): EvidenceQuestion {
  const question = boxQuestion({ massT: 123, kgM: 1.9, ...load });
  return { ...question, vessel: { ...question.vessel, services: ['workboat'] } };
}
