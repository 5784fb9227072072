import { defineConfig } from 'playwright/test';

export default defineConfig({
  testDir: 'e2e',
  outputDir: '../test-results',
  timeout: 120_000,
  workers: 1,
  // Sound is played in real time: a busy test machine may lose some of it. A second try is told at the end.
  retries: process.env['CI'] === undefined ? 0 : 1,
  reporter: [['list'], ['json', { outputFile: '../test-results/e2e.json' }]],
  use: { viewport: { width: 1280, height: 800 } },
});
