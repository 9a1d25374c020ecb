/** The faults of the board side: code, what it means, what to do. */
export const STATION_FAULTS = {
  'port-not-open': {
    means: 'the serial port cannot be opened',
    remedy: 'Check the name of the port, its permission, and that no other program holds it.',
  },
  'board-silent': {
    means: 'nothing at this port speaks the board protocol',
    remedy: 'Check that the board is flashed with hardware/firmware/board.hex.',
  },
  'board-reset': {
    means: 'the board began anew by itself',
    remedy: 'Check its supply; a new stream has been opened.',
  },
  'scan-malformed': {
    means: 'a scan of the board is not of the agreed form',
    remedy: 'Check the cable for disturbance; flash the firmware of this version.',
  },
  'chip-unchecked': {
    means: 'a chip answers again after a fault and has not been checked yet',
    remedy: 'Nothing: it is checked by itself within a second.',
  },
  'chip-not-ready': {
    means: 'a conversion that this scan should have read was not started by the scan before',
    remedy: 'Nothing if it is the first scan; else see the fault before it.',
  },
  'chip-not-configured': {
    means: 'a chip does not keep what is written to it',
    remedy: 'Check its supply and wiring; replace the chip if it goes on.',
  },
  'chip-memory': {
    means: 'a chip says that its own memory of its calibration is broken',
    remedy: 'Replace the chip.',
  },
  'bus-not-alone': {
    means: 'a chip that must be alone on its I2C bus shares it with another',
    remedy: 'Give it a board of its own.',
  },
  'spool-full': {
    means: 'the station has no room for more samples that are not yet acknowledged',
    remedy: 'Connect the receiver, or free space on the disk of the station.',
  },
  'spool-damaged': {
    means: 'part of the spool is not as it was written',
    remedy: 'What follows the damage was set aside; check the disk.',
  },
  'spool-disk': {
    means: 'the spool cannot be written to disk',
    remedy: 'Free space on the disk of the station.',
  },
  'station-folder': {
    means: 'the data folder of the station cannot be used',
    remedy: 'Choose a folder of your own with --data; one program uses it at a time.',
  },
  'link-not-private': {
    means: 'the receiver is on another machine and the connection would not be encrypted',
    remedy: 'Use a wss:// address, or run the receiver on this machine.',
  },
  'link-lost': {
    means: 'the receiver does not answer',
    remedy: 'Nothing is lost: samples are kept and sent when it answers again.',
  },
} as const;
