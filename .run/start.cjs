'use strict';
// `npm start`: everything from a bare machine to an address. Old syntax on purpose (see machine.cjs).
var path = require('path');
var childProcess = require('child_process');
var machine = require('./machine.cjs');
var port = require('./port.cjs');

var DEFAULT_PORT = 4780;

machine.requireNode();
var passedOn = process.argv.slice(2);
var wantedPort = portOf(passedOn);

if (passedOn.indexOf('--help') >= 0 || passedOn.indexOf('-h') >= 0) prepareAndStart();
else
  port.whoHolds(wantedPort, function (holder) {
    if (holder === 'ours') {
      console.log('Heelwright is running already: http://127.0.0.1:' + wantedPort + '/');
      return;
    }
    if (holder === 'other') {
      var name = port.nameOfHolder(wantedPort);
      console.error(
        'Port ' +
          wantedPort +
          ' is taken by ' +
          (name || 'another program') +
          '. Stop it, or choose another: npm start -- --port ' +
          (wantedPort + 1)
      );
      process.exit(3);
    }
    prepareAndStart();
  });

function portOf(args) {
  for (var i = 0; i < args.length; i += 1) {
    var match = /^--port(?:=(.*))?$/.exec(args[i]);
    if (!match) continue;
    var value = Number(match[1] === undefined ? args[i + 1] : match[1]);
    if (value >= 1 && value <= 65535 && Math.floor(value) === value) return value;
    console.error('--port takes a whole number from 1 to 65535.');
    process.exit(2);
  }
  return DEFAULT_PORT;
}

function prepareAndStart() {
  machine.ensurePackages();
  machine.ensureScreen();
  require('./build.cjs')
    .buildPrograms()
    .then(function (folder) {
      var child = childProcess.spawn(
        process.execPath,
        [path.join(folder, 'receiver.mjs'), 'demo'].concat(passedOn),
        {
          cwd: machine.root,
          stdio: 'inherit',
        }
      );
      ['SIGINT', 'SIGTERM', 'SIGHUP'].forEach(function (signal) {
        process.on(signal, function () {
          child.kill(signal);
        });
      });
      child.on('exit', function (code, signal) {
        process.exit(code === null ? (signal ? 0 : 1) : code);
      });
    })
    .catch(function (error) {
      console.error(String((error && error.message) || error));
      process.exit(4);
    });
}
