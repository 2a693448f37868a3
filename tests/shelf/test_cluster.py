"""A cluster gives what one machine gives."""

import re
from pathlib import Path

import pandas as pd
import pytest

from extract.errors import FileProblem
from extract.shelf import Update, open_shelf

distributed = pytest.importorskip("distributed")


@pytest.mark.filterwarnings("ignore")
def test_a_cluster_reads_the_same_tables(folder: Path, cache: Path) -> None:
    local = open_shelf(str(folder), Update(jobs=1)).frames
    for path in cache.rglob("*.parquet"):
        path.unlink()
    with distributed.LocalCluster(
        n_workers=1, threads_per_worker=1, processes=False, dashboard_address=None
    ) as cluster:
        update = Update(cluster=cluster.scheduler_address, say=pytest.fail)
        remote = open_shelf(str(folder), update).frames
    for one, other in zip(local, remote, strict=True):
        pd.testing.assert_frame_equal(one.astype("object"), other.astype("object"))


def test_a_cluster_that_does_not_answer_is_said(
    folder: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("extract.workers.PATIENCE", "0.2s")
    with pytest.raises(FileProblem, match=re.escape("tcp://127.0.0.1:9: no cluster answers there")):
        open_shelf(str(folder), Update(cluster="tcp://127.0.0.1:9"))
