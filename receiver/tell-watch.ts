import type { Watch } from '#core/steadiness/watch-types.ts';
import type { ToSteadinessWorker } from './steadiness-messages.ts';

export type ToldToWatch = Extract<
  ToSteadinessWorker,
  { type: 'begin-state' | 'carrying' | 'accepted' | 'target' | 'overrule' | 'samples' }
>;

/** What happened, told to a watch: the same in the worker and where a reading is estimated again. */
export function tellWatch(watch: Watch, message: ToldToWatch): void {
  switch (message.type) {
    case 'begin-state':
      watch.beginState(message.atS);
      return;
    case 'carrying':
      watch.carrying(message.atS);
      return;
    case 'accepted':
      watch.accept();
      return;
    case 'target':
      watch.target(message.standardErrorDeg, message.missingDeg);
      return;
    case 'overrule':
      watch.overrule(message);
      return;
    case 'samples':
      message.atS.forEach((atS, k) => {
        watch.push(message.instrument, atS, message.heelDeg[k] ?? null);
      });
      for (const mark of message.shaking ?? []) watch.shaken(message.instrument, mark);
  }
}
