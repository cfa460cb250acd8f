"""A file of a test in a folder of its own: a journal and an animal are read with what lies beside them."""
import contextlib
import os
import tempfile


@contextlib.contextmanager
def apart(suffix, text):
    """The path of a new file with this text, alone in its folder, gone afterwards."""
    with tempfile.TemporaryDirectory() as folder:
        path = os.path.join(folder, "own" + suffix)
        with open(path, "w", encoding="utf-8") as f:
            f.write(text)
        yield path
