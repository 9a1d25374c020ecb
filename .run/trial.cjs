'use strict';
// `npm run trial -- --minutes N --part P [--keep]`: a slice of the long set of checks.
require('./built-program.cjs').runBuilt('trial');
