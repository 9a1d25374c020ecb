import fc from 'fast-check';

/**
 * Property tests look at the same cases at every commit, so that a red test is the commit's own;
 * another seed looks at others.
 */
fc.configureGlobal({ seed: Number(process.env['HEELWRIGHT_PROPERTY_SEED'] ?? '20261125') });
