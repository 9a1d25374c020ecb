'use strict';
// Builds the programs that run outside the tests: one file each in .build/programs, by esbuild.
// Needs the packages installed; .run/start.cjs and .run/test.cjs see to that first.
var fs = require('fs');
var path = require('path');

var root = path.join(__dirname, '..');

var PROGRAMS = {
  receiver: 'receiver/main.ts',
  'steadiness-worker': 'receiver/steadiness-worker.ts',
  'roll-worker': 'receiver/roll-worker.ts',
  'reduction-worker': 'receiver/reduction-worker.ts',
  'document-worker': 'receiver/export/document-worker.ts',
  device: 'device/main.ts',
  'avr-worker': 'device/emulated/avr-worker.ts',
  trial: 'tests/trial/main.ts',
  'sample-days-worker': 'tests/trial/sample-days-worker.ts',
  'soak-station': 'tests/support/soak-station.ts',
  bench: 'tests/bench/main.ts',
};

/** Resolves to the folder of the built programs. */
function buildPrograms() {
  var entryPoints = {};
  Object.keys(PROGRAMS).forEach(function (name) {
    var file = path.join(root, PROGRAMS[name]);
    if (fs.existsSync(file)) entryPoints[name] = file;
  });
  var outdir = path.join(root, '.build', 'programs');
  return require('esbuild')
    .build({
      absWorkingDir: root,
      entryPoints: entryPoints,
      outdir: outdir,
      outExtension: { '.js': '.mjs' },
      bundle: true,
      packages: 'external',
      platform: 'node',
      target: 'node20',
      format: 'esm',
      sourcemap: 'linked',
      logLevel: 'warning',
    })
    .then(function () {
      return outdir;
    });
}

module.exports = { buildPrograms: buildPrograms, root: root };

if (require.main === module) {
  buildPrograms().then(
    function (outdir) {
      console.log(path.relative(root, outdir));
    },
    function () {
      process.exit(1);
    }
  );
}
