import type { MicrophoneWorld } from '../../../src-renderer/audio/microphone.ts';
import type { OpenSound, SoundState } from '../../../src-renderer/audio/source.ts';

export class FakeTrack extends EventTarget {
  muted = false;
  stopped = false;
  readonly label: string;
  readonly settings: MediaTrackSettings;
  constructor(label: string, settings: MediaTrackSettings) {
    super();
    this.label = label;
    this.settings = settings;
  }
  getSettings = () => ({ ...this.settings });
  stop = () => {
    this.stopped = true;
  };
  unplug = () => this.dispatchEvent(new Event('ended'));
  mute = (muted: boolean) => {
    this.muted = muted;
    this.dispatchEvent(new Event(muted ? 'mute' : 'unmute'));
  };
}

export class FakePlayer extends EventTarget {
  buffer: { sampleRate: number; channels: Float32Array[] } | null = null;
  loop = false;
  started = false;
  connectedTo: unknown[] = [];
  connect = (node: unknown) => void this.connectedTo.push(node);
  start = () => void (this.started = true);
  end = () => this.dispatchEvent(new Event('ended'));
}

export class FakeContext extends EventTarget {
  state: AudioContextState;
  readonly sampleRate: number;
  constructor(sampleRate: number, state: AudioContextState) {
    super();
    this.sampleRate = sampleRate;
    this.state = state;
  }
  become = (state: AudioContextState) => {
    this.state = state;
    this.dispatchEvent(new Event('statechange'));
  };
  resume = async () => this.become('running');
  close = async () => this.become('closed');
  createMediaStreamSource = (stream: unknown) => ({ stream });
  readonly played: FakePlayer[] = [];
  readonly destination = 'speakers';
  createBuffer = (channelCount: number, length: number, sampleRate: number) => {
    const channels = Array.from({ length: channelCount }, () => new Float32Array(length));
    return { sampleRate, channels, getChannelData: (index: number) => channels[index]! };
  };
  createBufferSource = () => {
    const player = new FakePlayer();
    this.played.push(player);
    return player;
  };
}

export type FakeDevice = { deviceId: string; label: string; settings?: MediaTrackSettings };

/** A computer with sound inputs that can be plugged in and out, and a clock that is turned by hand. */
export const fakeWorld = (plugged: FakeDevice[] = [{ deviceId: 'a1', label: 'Pickup' }]) => {
  let inputs = plugged;
  let timers: { at: number; action: () => void }[] = [];
  let now = 0;
  const tracks: FakeTrack[] = [];
  const contexts: FakeContext[] = [];
  const asked: MediaTrackConstraints[] = [];
  const control = { refusal: null as DOMException | null, contextState: 'running' as AudioContextState, timesListed: 0 };

  const devices = Object.assign(new EventTarget(), {
    enumerateDevices: async () => {
      control.timesListed += 1;
      return inputs.map(({ deviceId, label }) => ({ kind: 'audioinput', deviceId, label }));
    },
    getUserMedia: async ({ audio }: { audio: MediaTrackConstraints }) => {
      asked.push(audio);
      if (control.refusal) throw control.refusal;
      const exact = (audio.deviceId as { exact: string } | undefined)?.exact;
      const device = exact === undefined ? inputs[0] : inputs.find(({ deviceId }) => deviceId === exact);
      if (!device) throw new DOMException('', exact === undefined ? 'NotFoundError' : 'OverconstrainedError');
      const track = new FakeTrack(device.label, { deviceId: device.deviceId, sampleRate: 44100, channelCount: 2, ...device.settings });
      tracks.push(track);
      return { getTracks: () => [track], getAudioTracks: () => [track] };
    },
  });
  const page = new EventTarget();
  const world: MicrophoneWorld = {
    devices: devices as unknown as MediaDevices,
    page,
    openContext: (rate) => {
      const context = new FakeContext(rate ?? 48000, control.contextState);
      contexts.push(context);
      return context as unknown as AudioContext;
    },
    after: (seconds, action) => {
      const timer = { at: now + seconds, action };
      timers.push(timer);
      return () => {
        timers = timers.filter((other) => other !== timer);
      };
    },
  };
  return {
    world,
    page,
    tracks,
    contexts,
    asked,
    control,
    plug: (devicesNow: FakeDevice[], { announced = true } = {}) => {
      inputs = devicesNow;
      if (announced) devices.dispatchEvent(new Event('devicechange'));
    },
    /** Lets time pass, one timer after the other. */
    pass: async (seconds: number) => {
      const end = now + seconds;
      for (;;) {
        await settled();
        const next = timers.filter(({ at }) => at <= end).sort((one, other) => one.at - other.at)[0];
        if (!next) break;
        timers = timers.filter((timer) => timer !== next);
        now = next.at;
        next.action();
      }
      now = end;
    },
  };
};

/** Lets every promise that is already due come to its end. */
export const settled = async () => {
  for (let turn = 0; turn < 20; turn += 1) await Promise.resolve();
};

/** A listener that keeps what it is told. */
export const diary = () => {
  const states: SoundState[] = [];
  const opened: OpenSound[] = [];
  let closed = 0;
  return {
    states,
    opened,
    kinds: () => states.map(({ kind }) => kind),
    last: () => states.at(-1),
    closed: () => closed,
    listener: {
      changed: (state: SoundState) => void states.push(state),
      opened: async (sound: OpenSound) => void opened.push(sound),
      closed: () => void (closed += 1),
    },
  };
};
