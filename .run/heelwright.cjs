#!/usr/bin/env node
'use strict';
// The one program a person types: hands `log` and `ports` to the board side, the rest to the receiver.
var path = require('path');
var childProcess = require('child_process');
var machine = require('./machine.cjs');

machine.requireNode();
machine.ensurePackages();

var BOARD_SIDE = ['log', 'ports'];
var args = process.argv.slice(2);
var needsScreen = args[0] === 'demo' || args[0] === 'receive';
if (needsScreen && args.indexOf('--help') < 0) machine.ensureScreen();

require('./build.cjs')
  .buildPrograms()
  .then(function (folder) {
    var program = BOARD_SIDE.indexOf(args[0]) >= 0 ? 'device.mjs' : 'receiver.mjs';
    var child = childProcess.spawn(process.execPath, [path.join(folder, program)].concat(args), {
      stdio: 'inherit',
    });
    ['SIGINT', 'SIGTERM', 'SIGHUP'].forEach(function (signal) {
      process.on(signal, function () {
        child.kill(signal);
      });
    });
    child.on('exit', function (code) {
      process.exit(code === null ? 0 : code);
    });
  })
  .catch(function (error) {
    console.error(String((error && error.message) || error));
    process.exit(4);
  });
