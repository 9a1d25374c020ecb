import { BOARD_FAULTS } from '#core/fault/board-faults.ts';
import { HULL_FAULTS } from '#core/fault/hull-faults.ts';
import { INPUT_FAULTS } from '#core/fault/input-faults.ts';
import { INSTRUMENT_FAULTS } from '#core/fault/instrument-faults.ts';
import { LOADING_FAULTS } from '#core/fault/loading-faults.ts';
import { PEOPLE_FAULTS } from '#core/fault/people-faults.ts';
import { PROGRAM_FAULTS } from '#core/fault/program-faults.ts';
import { RECORD_FAULTS } from '#core/fault/record-faults.ts';
import { REPORT_FAULTS } from '#core/fault/report-faults.ts';
import { RULES_FAULTS } from '#core/fault/rules-faults.ts';
import { SERIAL_FAULTS } from '#core/fault/serial-faults.ts';
import { STATION_FAULTS } from '#core/fault/station-faults.ts';
import { WIRE_FAULTS } from '#core/fault/wire-faults.ts';

/**
 * Every fault the program can name: a stable code, what it means, what to do.
 * A fault is data, not a crash: it travels with the place it was found at and is shown in words.
 */
export const FAULTS = {
  ...INPUT_FAULTS,
  ...RECORD_FAULTS,
  ...WIRE_FAULTS,
  ...BOARD_FAULTS,
  ...SERIAL_FAULTS,
  ...STATION_FAULTS,
  ...PROGRAM_FAULTS,
  ...HULL_FAULTS,
  ...LOADING_FAULTS,
  ...INSTRUMENT_FAULTS,
  ...PEOPLE_FAULTS,
  ...REPORT_FAULTS,
  ...RULES_FAULTS,
} as const satisfies Record<string, { means: string; remedy: string }>;

export type FaultCode = keyof typeof FAULTS;

/** A fault as it is recorded and sent: the code, where it was found, what was found there. */
export interface FaultReport {
  readonly code: FaultCode;
  /** The place: a file and line, a message and field, a board and chip. */
  readonly where: string;
  /** What was found there, in words, with the value. */
  readonly found: string;
}

/** The same fault thrown, where the caller cannot go on. */
export class Fault extends Error {
  override readonly name = 'Fault';
  readonly report: FaultReport;

  constructor(code: FaultCode, where: string, found: string) {
    super(`${code}: ${FAULTS[code].means} (${where}: ${found}). ${FAULTS[code].remedy}`);
    this.report = { code, where, found };
  }

  get code(): FaultCode {
    return this.report.code;
  }
}
