/** Shown in place of the app where its host cannot be reached. */
export const Unreachable = ({ sentence }: { readonly sentence: string }) => (
  <main style={{ padding: 64, maxWidth: 720 }}>
    <h1>Stillstring is not answering</h1>
    <p className="lead quiet">{sentence}</p>
  </main>
);
