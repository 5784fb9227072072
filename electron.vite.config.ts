import { fileURLToPath } from 'node:url';
import react, { reactCompilerPreset } from '@vitejs/plugin-react';
import babel from '@rolldown/plugin-babel';
import { defineConfig } from 'electron-vite';

const here = (path: string): string => fileURLToPath(new URL(path, import.meta.url));

export default defineConfig({
  main: {
    build: {
      sourcemap: true,
      externalizeDeps: false,
      outDir: 'out/main',
      rolldownOptions: {
        input: { index: here('src-main/index.ts'), desk: here('src-main/desk.ts'), launch: here('src-main/launch.ts') },
      },
    },
  },
  // A sandboxed preload must be one CommonJS file.
  preload: {
    build: {
      externalizeDeps: false,
      outDir: 'out/preload',
      rolldownOptions: { input: { index: here('src-main/preload/index.ts') }, output: { format: 'cjs', entryFileNames: '[name].cjs' } },
    },
  },
  renderer: {
    root: here('src-renderer'),
    plugins: [react(), babel({ presets: [reactCompilerPreset()] })],
    server: { host: '127.0.0.1', port: 5173 },
    // The content policy allows fonts and pictures as files only, so none may be inlined.
    build: {
      sourcemap: true,
      minify: true,
      assetsInlineLimit: 0,
      chunkSizeWarningLimit: 1500,
      outDir: here('out/renderer'),
      rolldownOptions: { input: here('src-renderer/index.html') },
    },
  },
});
