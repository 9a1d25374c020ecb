'use strict';
// Builds everything and runs one of the built programs of the tests.
var path = require('path');
var childProcess = require('child_process');
var machine = require('./machine.cjs');

function runBuilt(name) {
  machine.requireNode();
  machine.ensurePackages();
  machine.ensureScreen();
  require('./build.cjs')
    .buildPrograms()
    .then(function (folder) {
      var child = childProcess.spawn(
        process.execPath,
        ['--expose-gc', path.join(folder, name + '.mjs')].concat(process.argv.slice(2)),
        {
          cwd: machine.root,
          stdio: 'inherit',
          env: Object.assign({}, process.env, { HEELWRIGHT_PROGRAMS: folder }),
        }
      );
      child.on('exit', function (code) {
        process.exit(code === null ? 1 : code);
      });
    })
    .catch(function (error) {
      console.error(String((error && error.message) || error));
      process.exit(4);
    });
}

module.exports = { runBuilt: runBuilt };
