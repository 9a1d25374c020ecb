import { type Dock, type DockSettings, openDock } from '#receiver/dock.ts';
import { MACHINE_CLOCK } from '#receiver/machine-clock.ts';
import { noteCodes } from './receiver-access.ts';
import { TEST_BODY } from './record-lines.ts';

/** A dock in this process, in a folder of the caller's, with its codes remembered. */
export async function openTestDock(
  settings: Pick<DockSettings, 'folder' | 'recordPath'> & Partial<DockSettings>,
): Promise<Dock> {
  const dock = await openDock({
    port: 0,
    version: 'test',
    screenFolder: settings.folder,
    machine: MACHINE_CLOCK,
    paced: false,
    test: TEST_BODY,
    estimator: 'test',
    lan: false,
    tls: null,
    warn: (error) => {
      throw error;
    },
    ...settings,
  });
  noteCodes(dock.port, {
    architect: dock.access.codeAtStart('architect'),
    boards: dock.access.codeAtStart('device'),
  });
  return dock;
}
