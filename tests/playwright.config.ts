import { defineConfig } from 'playwright/test';

export default defineConfig({
  testDir: 'e2e',
  outputDir: '../test-results',
  timeout: 120_000,
  workers: 1,
  retries: 0,
  reporter: [['list'], ['json', { outputFile: '../test-results/e2e.json' }]],
  use: { viewport: { width: 1280, height: 800 } },
});
