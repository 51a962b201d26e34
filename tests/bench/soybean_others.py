"""The same rows through scikit-learn, where an unknown value is a value like any other. Needed by the bench only."""

from __future__ import annotations

from collections.abc import Sequence

import sklearn
from sklearn.ensemble import RandomForestClassifier
from sklearn.linear_model import LogisticRegression
from sklearn.naive_bayes import CategoricalNB
from sklearn.pipeline import make_pipeline
from sklearn.preprocessing import OneHotEncoder, OrdinalEncoder
from soybean_book import Row, attributes_of, id_of

VERSION = sklearn.__version__
NAIVE_BAYES = "categorical naive Bayes"


def predict_all(train: Sequence[Row], test: Sequence[Row]) -> dict[str, list[dict[str, float]]]:
    """For each method, in each test row, the probability of every class by id."""
    names = attributes_of(train[0])
    values = [sorted({row[name] for row in (*train, *test)}) for name in names]
    numbers = OrdinalEncoder(categories=values)
    marks = make_pipeline(numbers, OneHotEncoder(categories=[list(range(len(each))) for each in values]))
    methods = {
        NAIVE_BAYES: make_pipeline(numbers, CategoricalNB(min_categories=[len(each) for each in values])),
        "logistic regression": make_pipeline(marks, LogisticRegression(max_iter=5000)),
        "random forest, 500 trees": make_pipeline(marks, RandomForestClassifier(500, random_state=0)),
    }
    told, asked = ([[row[name] for name in names] for row in rows] for rows in (train, test))
    right = [row["class"] for row in train]
    return {name: _predict(method.fit(told, right), asked) for name, method in methods.items()}


def _predict(fitted: object, asked: list[list[str]]) -> list[dict[str, float]]:
    classes = [id_of(name) for name in fitted.classes_]
    return [dict(zip(classes, map(float, row), strict=True)) for row in fitted.predict_proba(asked)]
