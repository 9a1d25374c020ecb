'use strict';
// What start and test share: is this Node new enough, are the packages those of the lock file.
// Old syntax on purpose: a Node too old for the program must still be able to say so.
var crypto = require('crypto');
var fs = require('fs');
var path = require('path');
var childProcess = require('child_process');

var root = path.join(__dirname, '..');

/** Leaves with a sentence and exit code 2 when this Node cannot run the program. */
function requireNode() {
  var parts = process.versions.node.split('.');
  var major = Number(parts[0]);
  var minor = Number(parts[1]);
  var fits = (major === 20 && minor >= 19) || (major === 22 && minor >= 12) || major >= 23;
  if (fits) return;
  console.error(
    'Heelwright needs Node 20.19 or newer (of 22: 22.12 or newer; not 21); this is Node ' +
      process.versions.node +
      '. Install a current Node and run the same command again.'
  );
  process.exit(2);
}

function sha256OfFile(file) {
  return crypto.createHash('sha256').update(fs.readFileSync(file)).digest('hex');
}

function readJson(file) {
  try {
    return JSON.parse(fs.readFileSync(file, 'utf8'));
  } catch (_error) {
    return null;
  }
}

/** True when every package of the lock that this platform needs is in node_modules at its version. */
function packagesMatchLock() {
  var wanted = readJson(path.join(root, 'package-lock.json'));
  var found = readJson(path.join(root, 'node_modules', '.package-lock.json'));
  if (!wanted || !found) return false;
  return Object.keys(wanted.packages).every(function (key) {
    if (key === '') return true;
    var entry = wanted.packages[key];
    var here = found.packages[key];
    if (!here) return Boolean(entry.optional);
    return here.version === entry.version;
  });
}

/** Runs `npm ci` only when the lock file is another than the one installed. Needs the network only then. */
function ensurePackages() {
  var stamp = path.join(root, 'node_modules', '.heelwright-lock');
  var lock = sha256OfFile(path.join(root, 'package-lock.json'));
  if (fs.existsSync(stamp) && fs.readFileSync(stamp, 'utf8') === lock) return;
  if (!packagesMatchLock()) {
    console.log('Installing the packages of package-lock.json (once, needs the network) ...');
    var npm = process.env.npm_execpath;
    var result = npm
      ? childProcess.spawnSync(process.execPath, [npm, 'ci'], { cwd: root, stdio: 'inherit' })
      : childProcess.spawnSync('npm', ['ci'], {
          cwd: root,
          stdio: 'inherit',
          shell: process.platform === 'win32',
        });
    if (result.status !== 0) {
      console.error(
        'The packages could not be installed (npm ci). Without them nothing can run; connect to a network once and try again.'
      );
      process.exit(3);
    }
  }
  fs.writeFileSync(stamp, lock);
}

/** Every file below the folders given, sorted, for one hash over the sources of a build. */
function filesBelow(folders) {
  var files = [];
  function walk(folder) {
    fs.readdirSync(folder, { withFileTypes: true }).forEach(function (entry) {
      var full = path.join(folder, entry.name);
      if (entry.isDirectory()) walk(full);
      else files.push(full);
    });
  }
  folders.forEach(function (folder) {
    walk(path.join(root, folder));
  });
  return files.sort();
}

function hashOfFiles(files) {
  var hash = crypto.createHash('sha256');
  files.forEach(function (file) {
    hash.update(path.relative(root, file) + '\n');
    hash.update(fs.readFileSync(file));
  });
  return hash.digest('hex');
}

/** Builds the screen when its sources are other than those of the last build. */
function ensureScreen() {
  var stamp = path.join(root, '.build', 'screen.hash');
  var sources = filesBelow(['ui', 'core']).concat([path.join(root, 'package-lock.json')]);
  var hash = hashOfFiles(sources);
  var index = path.join(root, '.build', 'screen', 'index.html');
  if (fs.existsSync(index) && fs.existsSync(stamp) && fs.readFileSync(stamp, 'utf8') === hash)
    return;
  console.log('Building the screen ...');
  var result = childProcess.spawnSync(
    process.execPath,
    [
      path.join(root, 'node_modules', 'vite', 'bin', 'vite.js'),
      'build',
      '--config',
      path.join(root, 'ui', 'vite.config.ts'),
      '--logLevel',
      'warn',
    ],
    { cwd: root, stdio: 'inherit' }
  );
  if (result.status !== 0) {
    console.error('The screen could not be built.');
    process.exit(4);
  }
  fs.writeFileSync(stamp, hash);
}

module.exports = {
  root: root,
  requireNode: requireNode,
  ensurePackages: ensurePackages,
  ensureScreen: ensureScreen,
};
