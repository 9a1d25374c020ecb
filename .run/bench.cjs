'use strict';
// `npm run bench`: speeds, printed; ratios in one run where they can be.
require('./built-program.cjs').runBuilt('bench');
