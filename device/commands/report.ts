import { FAULTS, type FaultCode, type FaultReport } from '#core/fault/fault.ts';
import type { Report, StationEvent } from '../events.ts';

/** How a command ends: done, wrong usage, input refused. */
export const EXIT = { done: 0, usage: 2, refused: 3 } as const;

/** Says what happens at the station: a line of words, or of JSON, for each event. */
export function reporter(json: boolean): Report {
  return (event) => {
    if (json) console.log(JSON.stringify(event));
    else console.log(words(event));
  };
}

/** A fault that ends the command. */
export function sayFault(report: FaultReport, json: boolean): void {
  if (json) console.error(JSON.stringify({ ...report, ...FAULTS[report.code] }));
  else console.error(faultWords(report));
}

export function faultWords({ code, where, found }: FaultReport): string {
  const { means, remedy }: { means: string; remedy: string } = FAULTS[code satisfies FaultCode];
  return `${code}: ${means} (${where}: ${found}). ${remedy}`;
}

function words(event: StationEvent): string {
  switch (event.event) {
    case 'station':
      return `Station ${event.station}, data in ${event.data}`;
    case 'board':
      return `${event.port}: board ${event.board}, firmware ${event.firmware}`;
    case 'stream':
      return `Stream ${event.stream}: ${event.channels} channels every ${event.periodUs} us`;
    case 'stream-closed':
      return `Stream ${event.stream} closed: ${event.reason}`;
    case 'receiver':
      return `Receiver ${event.url}, record ${event.record}`;
    case 'fault':
      return faultWords(event);
  }
}
