export async function unpackLibrary(packed: Uint8Array): Promise<Uint8Array> {
  const stream = new Blob([packed as BlobPart]).stream().pipeThrough(new DecompressionStream('gzip'));
  return new Uint8Array(await new Response(stream).arrayBuffer());
}
