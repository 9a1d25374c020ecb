'use strict';
// `npm test`: everything that must hold at every commit, on a fresh machine too.
//   --without-browser   leave the browser tests out (their absence is said)
//   --without-chips     leave the whole emulated chip-level days out
//   --only NAME         one step: format, types, screen-types, unused, imports, pure, tests, alone, chips, browser
var fs = require('fs');
var path = require('path');
var childProcess = require('child_process');
var machine = require('./machine.cjs');

machine.requireNode();
var args = process.argv.slice(2);
var KNOWN = ['--without-browser', '--without-chips', '--only'];
args.forEach(function (arg, index) {
  if (KNOWN.indexOf(arg) < 0 && args[index - 1] !== '--only') {
    console.error('Unknown: ' + arg + '. npm test takes ' + KNOWN.join(', ') + ' NAME.');
    process.exit(2);
  }
});
var only = args.indexOf('--only') >= 0 ? args[args.indexOf('--only') + 1] : null;

machine.ensurePackages();
machine.ensureScreen();

var passed = 0;
var failed = 0;
var notRun = [];
var startedMs = Date.now();

function bin(packageName, file) {
  return path.join(machine.root, 'node_modules', packageName, file);
}

function wanted(name) {
  return only === null || only === name;
}

/** One command; what it prints is told when it ends, so that two can run beside each other. */
function step(name, words, file, fileArgs) {
  return function (done) {
    if (!wanted(name)) return done();
    var begunMs = Date.now();
    var printed = [];
    var child = childProcess.spawn(process.execPath, [file].concat(fileArgs), {
      cwd: machine.root,
      stdio: ['ignore', 'pipe', 'pipe'],
      env: Object.assign({}, process.env, { NO_COLOR: '1' }),
    });
    [child.stdout, child.stderr].forEach(function (stream) {
      stream.on('data', function (piece) {
        printed.push(piece);
      });
    });
    child.on('close', function (status) {
      var ok = status === 0;
      if (ok) passed += 1;
      else failed += 1;
      process.stdout.write(Buffer.concat(printed));
      console.log((ok ? 'holds   ' : 'FAILED  ') + words + ' (' + secondsSince(begunMs) + ' s)');
      done();
    });
  };
}

function secondsSince(ms) {
  return Math.round((Date.now() - ms) / 100) / 10;
}

/** Runs steps in their order, two at a time. */
function twoAtATime(steps, done) {
  var next = 0;
  var running = 0;
  function go() {
    if (next === steps.length && running === 0) return done();
    while (running < 2 && next < steps.length) {
      running += 1;
      next += 1;
      steps[next - 1](function () {
        running -= 1;
        go();
      });
    }
  }
  go();
}

var browserMissing = false;
var ALL_CORES = { HEELWRIGHT_ALL_CORES: '1' };

function starting(patterns) {
  return patterns.map(function (pattern) {
    return pattern.replace('**', '');
  });
}

function excluded(patterns) {
  return patterns.reduce(function (args, pattern) {
    return args.concat('--exclude', pattern);
  }, []);
}

function vitest(name, words, patterns, environment) {
  if (!wanted(name)) return;
  var begunMs = Date.now();
  var report = path.join(machine.root, '.build', 'tests-' + name + '.json');
  fs.rmSync(report, { force: true });
  var result = childProcess.spawnSync(
    process.execPath,
    [
      bin('vitest', 'vitest.mjs'),
      'run',
      '--config',
      path.join('tests', 'vitest.config.ts'),
      '--reporter=dot',
      '--reporter=json',
      '--outputFile.json=' + report,
    ].concat(patterns),
    {
      cwd: machine.root,
      stdio: 'inherit',
      env: Object.assign({}, process.env, { NO_COLOR: '1' }, environment || {}),
    }
  );
  var counted = fs.existsSync(report) ? JSON.parse(fs.readFileSync(report, 'utf8')) : null;
  if (counted) {
    passed += counted.numPassedTests;
    failed += counted.numFailedTests;
    counted.testResults.forEach(function (file) {
      file.assertionResults.forEach(function (test) {
        if (test.status === 'pending' || test.status === 'skipped') notRun.push(test.fullName);
      });
    });
  }
  if (result.status !== 0 && (!counted || counted.numFailedTests === 0)) failed += 1;
  console.log(
    (result.status === 0 ? 'holds   ' : 'FAILED  ') +
      words +
      ' (' +
      Math.round((Date.now() - begunMs) / 1000) +
      ' s)'
  );
}

var checks = [
  step('format', 'format and lint', bin('@biomejs/biome', path.join('bin', 'biome')), ['ci', '.']),
  step('types', 'types of core', bin('typescript', path.join('bin', 'tsc')), [
    '--noEmit',
    '-p',
    'core/tsconfig.json',
  ]),
  step('types', 'types', bin('typescript', path.join('bin', 'tsc')), ['--noEmit']),
  step('types', 'types of the browser tests', bin('typescript', path.join('bin', 'tsc')), [
    '--noEmit',
    '-p',
    'tests/browser/tsconfig.json',
  ]),
  step(
    'screen-types',
    'types of the screen',
    bin('svelte-check', path.join('bin', 'svelte-check')),
    ['--tsconfig', './ui/tsconfig.json', '--fail-on-warnings']
  ),
  step('unused', 'nothing unused', bin('knip', path.join('bin', 'knip.js')), [
    '--config',
    '.knip.json',
  ]),
  step(
    'imports',
    'imports run one way',
    bin('dependency-cruiser', path.join('bin', 'dependency-cruise.mjs')),
    ['--config', '.dependency-cruiser.cjs', 'core', 'device', 'receiver', 'ui', 'tests']
  ),
];

/** Tests of pure code leave nothing behind in a process, so that files can share one. */
var PURE = ['tests/core/**', 'tests/ui/**', 'tests/published/**'];
/** What measures delays, or fills a disk at the pace of real programs, has the machine for itself. */
var ALONE = ['tests/day/loop.test.ts', 'tests/day/disk.test.ts', 'tests/device/chain.test.ts'];

function allTests() {
  vitest('pure', 'tests that start no program', ['--no-isolate'].concat(starting(PURE)), ALL_CORES);
  vitest(
    'tests',
    'tests',
    excluded(PURE.concat('tests/browser/**', 'tests/**/*-chips.test.ts', ALONE)),
    ALL_CORES
  );
  vitest('alone', 'tests that need the machine for themselves', ALONE);
  if (args.indexOf('--without-chips') < 0) {
    vitest('chips', 'chip-level days', ['chips.test.ts'], ALL_CORES);
  } else notRun.push('chip-level days (--without-chips)');
  if (args.indexOf('--without-browser') >= 0) notRun.push('browser tests (--without-browser)');
  else if (wanted('browser')) {
    var browser = require('./browser.cjs').findBrowser();
    if (browser) vitest('browser', 'browser tests', ['tests/browser/'], { CHROME_PATH: browser });
    else browserMissing = true;
  }
}

function tellAndLeave() {
  console.log('');
  notRun.forEach(function (name) {
    console.log('not run: ' + name);
  });
  if (browserMissing) {
    console.log(
      'not run: browser tests. No browser was found: name one in CHROME_PATH, install Chromium, Chrome or Edge, or say --without-browser.'
    );
  }
  console.log(Math.round((Date.now() - startedMs) / 1000) + ' s in all');
  console.log(passed + ' passed, ' + failed + ' failed');
  process.exit(failed > 0 ? 1 : browserMissing ? 4 : 0);
}

twoAtATime(checks, function () {
  allTests();
  tellAndLeave();
});
