'use strict';
// Finds a browser for the tests: CHROME_PATH; an installed Chromium, Chrome or Edge; as root on
// Debian, apt; else Playwright's own download, given up after 20 s.
var fs = require('fs');
var path = require('path');
var childProcess = require('child_process');
var machine = require('./machine.cjs');

var DOWNLOAD_WITHIN_MS = 20000;
var APT_WITHIN_MS = 300000;

function installedPaths() {
  if (process.platform === 'darwin') {
    return [
      '/Applications/Google Chrome.app/Contents/MacOS/Google Chrome',
      '/Applications/Chromium.app/Contents/MacOS/Chromium',
      '/Applications/Microsoft Edge.app/Contents/MacOS/Microsoft Edge',
    ];
  }
  if (process.platform === 'win32') {
    var places = [
      process.env['ProgramFiles'],
      process.env['ProgramFiles(x86)'],
      process.env['LOCALAPPDATA'],
    ].filter(Boolean);
    var found = [];
    places.forEach(function (place) {
      found.push(path.join(place, 'Google', 'Chrome', 'Application', 'chrome.exe'));
      found.push(path.join(place, 'Microsoft', 'Edge', 'Application', 'msedge.exe'));
      found.push(path.join(place, 'Chromium', 'Application', 'chrome.exe'));
    });
    return found;
  }
  var names = [
    'chromium',
    'chromium-browser',
    'google-chrome-stable',
    'google-chrome',
    'microsoft-edge-stable',
    'microsoft-edge',
  ];
  var paths = [];
  (process.env.PATH || '').split(path.delimiter).forEach(function (folder) {
    names.forEach(function (name) {
      paths.push(path.join(folder, name));
    });
  });
  return paths;
}

function byApt() {
  var isRoot = typeof process.getuid === 'function' && process.getuid() === 0;
  if (!isRoot || !fs.existsSync('/etc/debian_version')) return null;
  console.log('Installing Chromium for the browser tests (apt) ...');
  var options = {
    stdio: 'ignore',
    timeout: APT_WITHIN_MS,
    env: Object.assign({}, process.env, { DEBIAN_FRONTEND: 'noninteractive' }),
  };
  childProcess.spawnSync('apt-get', ['update'], options);
  childProcess.spawnSync(
    'apt-get',
    ['install', '-y', '--no-install-recommends', 'chromium'],
    options
  );
  return fs.existsSync('/usr/bin/chromium') ? '/usr/bin/chromium' : null;
}

function byPlaywright() {
  var own = playwrightsOwn();
  if (own) return own;
  console.log('Trying the test tool’s own browser download (given up after 20 s) ...');
  childProcess.spawnSync(
    process.execPath,
    [path.join(machine.root, 'node_modules', 'playwright', 'cli.js'), 'install', 'chromium'],
    { stdio: 'ignore', timeout: DOWNLOAD_WITHIN_MS, killSignal: 'SIGKILL' }
  );
  return playwrightsOwn();
}

function playwrightsOwn() {
  try {
    var file = require('playwright').chromium.executablePath();
    return fs.existsSync(file) ? file : null;
  } catch (_error) {
    return null;
  }
}

/** The path of a browser, or null. */
function findBrowser() {
  var asked = process.env.CHROME_PATH;
  if (asked) {
    if (fs.existsSync(asked)) return asked;
    console.error('CHROME_PATH names no file: ' + asked);
  }
  var installed = installedPaths().filter(function (file) {
    return fs.existsSync(file);
  })[0];
  return installed || byApt() || byPlaywright();
}

module.exports = { findBrowser: findBrowser };
