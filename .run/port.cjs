'use strict';
// Who holds a port: our own receiver (then its address is all a person needs), or which other program.
var fs = require('fs');
var http = require('http');
var net = require('net');
var childProcess = require('child_process');

var ANSWER_WITHIN_MS = 1500;

/** Calls back with 'free', 'ours' or 'other'. */
function whoHolds(port, done) {
  var probe = net.createServer();
  probe.once('error', function () {
    askHealth(port, done);
  });
  probe.listen(port, '127.0.0.1', function () {
    probe.close(function () {
      done('free');
    });
  });
}

function askHealth(port, done) {
  var answered = false;
  function once(result) {
    if (answered) return;
    answered = true;
    done(result);
  }
  var request = http.get(
    { host: '127.0.0.1', port: port, path: '/health', timeout: ANSWER_WITHIN_MS },
    function (response) {
      var text = '';
      response.setEncoding('utf8');
      response.on('data', function (part) {
        if (text.length < 4096) text += part;
      });
      response.on('end', function () {
        try {
          once(JSON.parse(text).program === 'heelwright' ? 'ours' : 'other');
        } catch (_error) {
          once('other');
        }
      });
    }
  );
  request.on('timeout', function () {
    request.destroy();
    once('other');
  });
  request.on('error', function () {
    once('other');
  });
}

/** The name and number of the process that listens on the port, as far as this system tells; else ''. */
function nameOfHolder(port) {
  try {
    if (process.platform === 'linux') return nameOnLinux(port);
    if (process.platform === 'win32') return nameOnWindows(port);
    return nameByLsof(port);
  } catch (_error) {
    return '';
  }
}

function nameOnLinux(port) {
  var hexPort = ('0000' + port.toString(16).toUpperCase()).slice(-4);
  var inodes = {};
  ['/proc/net/tcp', '/proc/net/tcp6'].forEach(function (table) {
    if (!fs.existsSync(table)) return;
    fs.readFileSync(table, 'utf8')
      .split('\n')
      .forEach(function (row) {
        var fields = row.trim().split(/\s+/);
        if (fields[3] === '0A' && fields[1].slice(-4) === hexPort)
          inodes['socket:[' + fields[9] + ']'] = true;
      });
  });
  var processes = fs.readdirSync('/proc').filter(function (entry) {
    return /^\d+$/.test(entry);
  });
  for (var p = 0; p < processes.length; p += 1) {
    var folder = '/proc/' + processes[p] + '/fd';
    try {
      var handles = fs.readdirSync(folder);
      for (var h = 0; h < handles.length; h += 1) {
        if (inodes[fs.readlinkSync(folder + '/' + handles[h])]) {
          return (
            fs.readFileSync('/proc/' + processes[p] + '/comm', 'utf8').trim() +
            ' (process ' +
            processes[p] +
            ')'
          );
        }
      }
    } catch (_error) {
      // Another user's process: its handles are not ours to see.
    }
  }
  return '';
}

function nameByLsof(port) {
  var out = childProcess.execFileSync('lsof', ['-nP', '-iTCP:' + port, '-sTCP:LISTEN', '-Fpc'], {
    timeout: ANSWER_WITHIN_MS,
    encoding: 'utf8',
  });
  var pid = /^p(\d+)/m.exec(out);
  var command = /^c(.+)/m.exec(out);
  return pid && command ? command[1] + ' (process ' + pid[1] + ')' : '';
}

function nameOnWindows(port) {
  var out = childProcess.execFileSync('netstat', ['-ano', '-p', 'TCP'], {
    timeout: 5000,
    encoding: 'utf8',
  });
  var row = out.split('\n').filter(function (line) {
    return line.indexOf(':' + port + ' ') > 0 && /LISTENING/.test(line);
  })[0];
  if (!row) return '';
  var pid = row.trim().split(/\s+/).pop();
  var task = childProcess.execFileSync('tasklist', ['/FI', 'PID eq ' + pid, '/FO', 'CSV', '/NH'], {
    timeout: 5000,
    encoding: 'utf8',
  });
  return task.split(',')[0].replace(/"/g, '') + ' (process ' + pid + ')';
}

module.exports = { whoHolds: whoHolds, nameOfHolder: nameOfHolder };
