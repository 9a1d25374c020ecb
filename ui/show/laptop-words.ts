import type { LaptopMatter, LaptopState } from '#core/record/laptop-line.ts';

interface Words {
  readonly title: string;
  readonly remedy: string;
}

const WORDS: Readonly<Record<LaptopMatter, Words>> = {
  battery: {
    title: 'The battery of the laptop is low.',
    remedy: 'Plug the laptop in. The boards keep their samples if it goes out.',
  },
  disk: {
    title: 'The disk is full, or will not hold eight hours more.',
    remedy: 'Free space on the disk the record is on.',
  },
  clock: {
    title: 'The clock of the laptop is off.',
    remedy: 'Note the right time in a remark. Heel and periods do not rest on this clock.',
  },
  folder: {
    title: 'The record is in a folder that other machines share.',
    remedy:
      'Keep records in a folder of this laptop only, and copy them when the test is closed: a synced copy may be half a record.',
  },
  sleep: {
    title: 'The laptop may fall asleep.',
    remedy: 'Set it to stay awake, with the lid open, until the test is closed.',
  },
  link: {
    title: 'A board side is not connected.',
    remedy: 'Look at its cable and power.',
  },
};

const STATION_DISK: Words = {
  title: 'A board side has no room for samples.',
  remedy:
    'Free space on the disk of the board side. What it has kept is safe; newer samples are lost.',
};

export const NOT_RECORDING_REMEDY =
  'Free space on the disk the record is on; writing goes on by itself. Take no reading and move no weight until then.';

export function laptopWords({ matter, station }: LaptopState): Words {
  return matter === 'disk' && station !== null ? STATION_DISK : WORDS[matter];
}
