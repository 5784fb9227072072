import { describe, expect, test } from 'vitest';
import type { MicrophoneFacts } from '../../../src-renderer/audio/microphone-state.ts';
import { microphoneState, refusalOf } from '../../../src-renderer/audio/microphone-state.ts';

const phases: MicrophoneFacts['phase'][] = ['closed', 'asking', 'open', 'denied', 'blocked', 'no-device', 'busy', 'lost', 'failed'];

const kind = (facts: Partial<MicrophoneFacts>) => microphoneState({ phase: 'open', label: null, muted: true, asleep: true, ...facts }).kind;

describe('what the player is told', () => {
  test('every state has a sentence of its own, which never shows the name of an error', () => {
    const sentences = phases.map((phase) => microphoneState({ phase, label: 'Pickup', muted: false, asleep: false }).sentence);
    expect(new Set(sentences).size).toBe(phases.length);
    for (const sentence of sentences) expect(sentence).toMatch(/^[A-Z].*\.$/);
    expect(sentences.join(' ')).not.toMatch(/Error|undefined|null/);
  });

  test('every state but asking and open offers something to do', () => {
    const without = phases.filter((phase) => microphoneState({ phase, label: null, muted: false, asleep: false }).remedy === null);
    expect(without).toEqual(['asking', 'open']);
  });

  test('a sleeping context is told before a muted device, and neither hides a refusal', () => {
    expect(kind({})).toBe('asleep');
    expect(kind({ asleep: false })).toBe('muted');
    expect(kind({ phase: 'denied' })).toBe('denied');
  });

  test.each([
    ['NotAllowedError', 'Permission denied', 'denied'],
    ['NotAllowedError', 'Permission dismissed', 'denied'],
    ['NotAllowedError', 'Permission denied by system', 'blocked'],
    ['SecurityError', '', 'denied'],
    ['NotFoundError', 'Requested device not found', 'no-device'],
    ['OverconstrainedError', '', 'lost'],
    ['NotReadableError', 'Could not start audio source', 'busy'],
    ['AbortError', '', 'busy'],
    ['TypeError', '', 'failed'],
  ])('%s "%s" means %s', (name, message, refusal) => {
    expect(refusalOf({ name, message })).toBe(refusal);
  });
});
