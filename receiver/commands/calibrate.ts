import type { Command } from 'commander';
import { calibrationOf } from '#core/calibration/calibration.ts';
import { calibrationInput } from '#core/calibration/calibration-input.ts';
import { certificateDocument } from '#core/report/certificate-document.ts';
import { pdfOfDocument } from '../export/pdf.ts';
import { calibrateWords } from './calibrate-words.ts';
import { EXIT, guarded, inputFromFile, writeNewFile } from './common.ts';

interface CalibrateOptions {
  readonly json?: boolean;
  readonly certificate?: string;
  readonly pdf?: string;
}

const HELP = `
A sine bar is set by height (mm) under one roller, at least at six settings, up and down, twice
(an inclinometer is fitted in sine space); the legs of a water tube are lifted by gauge blocks.
Limits are ours: no published figure for an inclining test was found. A figure that the points do
not show counts as not within.

Exit codes: 0 all within, 2 wrong usage, 3 input refused (code, where, what), 4 a limit not held.

Example:
  heelwright calibrate fore.json --certificate fore.certificate.json`;

export function registerCalibrate(program: Command): void {
  program
    .command('calibrate')
    .description('a written calibration to its certificate, held to limits')
    .argument('<calibration>', 'JSON (heelwright schema calibration)')
    .option('--json', 'answer as JSON: the certificate, the fit, each limit')
    .option('--certificate <file>', 'write the certificate there; never over another file')
    .option('--pdf <file>', 'write the certificate as a document; never over another file')
    .addHelpText('after', HELP)
    .action((path: string, options: CalibrateOptions) =>
      guarded(options.json ?? false, () => calibrate(path, options)),
    );
}

async function calibrate(path: string, options: CalibrateOptions): Promise<void> {
  const input = inputFromFile(calibrationInput, path);
  const calibration = calibrationOf(input);
  if (options.certificate !== undefined) {
    writeNewFile(options.certificate, `${JSON.stringify(calibration.certificate, null, 2)}\n`);
  }
  if (options.pdf !== undefined) {
    const { certificate } = calibration;
    const document = certificateDocument([certificate], {
      subject: `${certificate.instrument}, ${certificate.number}`,
      wall: `${certificate.date}T00:00:00.000Z`,
      marks: [],
      foot: `Certificate ${certificate.number}`,
    });
    writeNewFile(options.pdf, await pdfOfDocument(document));
  }
  const unit = input.kind === 'inclinometer' ? 'degree' : 'mm';
  console.log(
    options.json
      ? JSON.stringify(calibration, null, 2)
      : calibrateWords(calibration, unit).join('\n'),
  );
  if (calibration.limits.some(({ verdict }) => verdict !== 'within'))
    process.exitCode = EXIT.failed;
}
