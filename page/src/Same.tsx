/** A part of the page that is looked through, and drawn anew, only when what it shows is another: most keystrokes change few parts. */
import { Component, type ComponentChildren } from 'preact';

interface Part {
  /** All that is drawn in it, as one string. */
  of: string;
  draw: () => ComponentChildren;
}

/* Of its own, so that a signal that is read while it is drawn draws it anew whatever 'of' is. */
function Drawn({ draw }: { draw: () => ComponentChildren }) {
  return <>{draw()}</>;
}

export class Same extends Component<Part> {
  override shouldComponentUpdate(next: Part): boolean {
    return next.of !== this.props.of;
  }
  override render() {
    return <Drawn draw={this.props.draw} />;
  }
}
