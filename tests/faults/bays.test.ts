/** The board's own checks at length: 5,000 boards against brute force, 2,000 weeks of promises. */
process.env['RAKELIGHT_BOARDS'] = '5000';
process.env['RAKELIGHT_WEEKS'] = '2000';
await import('#tests/core/bays/offers.test.ts');
await import('#tests/core/bays/coverage.test.ts');

export {};
