import type { Act } from './screen-message.ts';

/** Roles that sit at a screen. */
export const PERSON_ROLES = ['architect', 'witness', 'technician'] as const;
export type PersonRole = (typeof PERSON_ROLES)[number];

/**
 * Who may do what: the one table the receiver enforces and the screens go by. A technician works
 * on instruments; once a test is open only when the architect has let them in.
 */
export const ROLES_OF_ACT: Readonly<Record<Act['kind'], readonly PersonRole[]>> = {
  'begin-shift': ['architect'],
  'weight-landed': ['architect'],
  'take-reading': ['architect'],
  'void-reading': ['architect'],
  correct: ['architect'],
  overrule: ['architect'],
  'replace-certificate': ['architect', 'technician'],
  'remount-instrument': ['architect', 'technician'],
  'confirm-sign': ['architect', 'technician'],
  'hand-reading': ['architect'],
  'mark-time': ['architect', 'technician'],
  'look-for-roll': ['architect'],
  'refuse-roll-run': ['architect'],
  'tell-roll-condition': ['architect'],
  enter: ['architect'],
  photograph: ['architect'],
  remark: ['architect', 'witness', 'technician'],
  'postpone-test': ['architect'],
  'resume-test': ['architect'],
  'close-test': ['architect'],
  ask: ['witness'],
  'answer-witness': ['architect'],
  'take-receipt': ['witness', 'architect', 'technician'],
  seal: ['architect'],
  sign: ['witness', 'architect', 'technician'],
  'technician-work': ['architect'],
  simulation: ['architect'],
  'simulate-sway': ['architect'],
};

/** What a technician does to instruments: during a test only when the architect has let them. */
export const INSTRUMENT_WORK: ReadonlySet<Act['kind']> = new Set([
  'replace-certificate',
  'remount-instrument',
  'confirm-sign',
]);

export function mayAct(role: PersonRole, kind: Act['kind']): boolean {
  return ROLES_OF_ACT[kind].includes(role);
}
