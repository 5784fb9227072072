import { describe, expect, test, vi } from 'vitest';
import { dispatch, type Handlers, HostFailure, requestNames } from '#shared/contract/index.ts';

const unused = (): never => {
  throw new Error('this handler was not to be called');
};
const handlersWith = (some: Partial<Handlers>): Handlers => ({
  ...(Object.fromEntries(requestNames.map((name) => [name, unused])) as unknown as Handlers),
  ...some,
});

describe('a request', () => {
  test('reaches its handler as the schema reads it', async () => {
    const remove = vi.fn(() => ({}));
    const reply = await dispatch(handlersWith({ 'tunings.remove': remove }), 'tunings.remove', { id: 'three-down' }, unused);
    expect(reply).toEqual({ ok: true, value: {} });
    expect(remove).toHaveBeenCalledExactlyOnceWith({ id: 'three-down' });
  });

  test('that its handler refuses is answered with that code and sentence, and is no fault', async () => {
    const handlers = handlersWith({ 'tunings.remove': () => Promise.reject(new HostFailure('in-use', '“Wren” is in this tuning.')) });
    expect(await dispatch(handlers, 'tunings.remove', { id: 'three-down' }, unused)).toEqual({
      ok: false,
      failure: { code: 'in-use', sentence: '“Wren” is in this tuning.' },
    });
  });

  test('that meets a fault is answered without its text, which goes to the host', async () => {
    const fault = new Error('/home/ann/secret');
    const told = vi.fn();
    const reply = await dispatch(handlersWith({ 'songs.list': () => Promise.reject(fault) }), 'songs.list', {}, told);
    expect(reply).toMatchObject({ ok: false, failure: { code: 'internal' } });
    expect(JSON.stringify(reply)).not.toContain('secret');
    expect(told).toHaveBeenCalledExactlyOnceWith(fault);
  });

  test('whose answer breaks the contract is a fault of the host', async () => {
    const told = vi.fn();
    const handlers = handlersWith({ 'songs.list': () => [{ id: 'a song without a title' }] as never });
    expect(await dispatch(handlers, 'songs.list', {}, told)).toMatchObject({ ok: false, failure: { code: 'internal' } });
    expect(told).toHaveBeenCalledOnce();
  });
});
