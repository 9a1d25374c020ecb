import { createRequire } from 'node:module';

const require = createRequire(import.meta.url);

/** Builds the real programs once before any test; worker threads and child processes run those. */
export default async function buildOnce(): Promise<void> {
  const { buildPrograms } = require('../../.run/build.cjs') as { buildPrograms(): Promise<string> };
  process.env['HEELWRIGHT_PROGRAMS'] = await buildPrograms();
}
