import { existsSync, statfsSync } from 'node:fs';
import { dirname, join, resolve } from 'node:path';
import type { Finding } from './matter.ts';

/** Folder names that file-syncing services give their folders, and files they mark them with. From memory. */
const SYNCED_NAME =
  /^(onedrive( - .+)?|dropbox( \(.+\))?|google ?drive|my drive|icloud ?drive|mobile documents|cloudstorage|nextcloud\d*|owncloud\d*|box( sync)?|pcloud ?drive|mega(sync)?|seafile|syncthing|sync|creative cloud files)$/i;
const MARKERS = [
  '.dropbox',
  '.dropbox.cache',
  '.stfolder',
  '.stignore',
  '.sync',
  '.owncloudsync.log',
  '.nextcloudsync.log',
  '.tmp.drivedownload',
];
const MOST_PARENTS = 64;
/** File systems of a network, by the magic number of Linux statfs(2). */
const NETWORK_TYPES: ReadonlyMap<number, string> = new Map([
  [0x6969, 'NFS'],
  [0xff534d42, 'CIFS'],
  [0xfe534d42, 'SMB 2'],
  [0x517b, 'SMB'],
  [0x01021997, '9P'],
  [0x00c36400, 'Ceph'],
  [0x5346414f, 'AFS'],
]);

/** Is the record kept where another machine may write too, or take it half? Looked at once, at opening. */
export function folderFinding(folder: string, platform: NodeJS.Platform): Finding {
  const found = syncedBy(folder) ?? networkOf(folder, platform);
  return {
    matter: 'folder',
    station: null,
    severity: found === null ? 'well' : 'notice',
    found: found ?? 'the folder is of this machine, as far as can be told',
  };
}

function syncedBy(folder: string): string | null {
  let at = resolve(folder);
  for (let up = 0; up < MOST_PARENTS; up += 1) {
    const parent = dirname(at);
    const name = at.slice(parent.length).replace(/^[\\/]/, '');
    if (SYNCED_NAME.test(name)) return words(`the folder ${name} is named as a synced one`);
    const marker = MARKERS.find((file) => existsSync(join(at, file)));
    if (marker !== undefined) return words(`the folder ${name} holds ${marker}`);
    if (parent === at) return null;
    at = parent;
  }
  return null;
}

function networkOf(folder: string, platform: NodeJS.Platform): string | null {
  if (folder.startsWith('\\\\')) return 'the folder is on another machine';
  // Only Linux tells a number that names the file system for every version.
  if (platform !== 'linux') return null;
  try {
    const type = NETWORK_TYPES.get(statfsSync(folder).type);
    return type === undefined ? null : `the folder is on a network (${type})`;
  } catch {
    return null;
  }
}

function words(found: string): string {
  return found.slice(0, 400);
}
